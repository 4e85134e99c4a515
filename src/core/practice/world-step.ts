/** Lets time pass in the simulated kitchen, by whole seconds, as far as the coach's step makes anything move. */
import type { StepId } from '../batch/steps.ts';
import { burn, powerW, turn } from './burner.ts';
import { between, chance } from './chance.ts';
import { dryInside, hydrate } from './grain.ts';
import { followCentre, meanC } from './load.ts';
import { simmering, stepPot, takeUp } from './pot.ts';
import { lie } from './surface.ts';
import { type Vessel, gaugeKPa, isDry } from './vessel.ts';
import { stepVessel } from './vessel-step.ts';
import { type World, isJet, loadFacts, sense } from './world.ts';

/** Half a dial's grain under the target still counts as being there, K. */
const TARGET_GRAIN_K = 0.6;
/** What smells or roars on and on is said again after so long, s. */
const HEARD_AGAIN_S = 600;
/** Slow things move in steps of this, s. */
const SLOW_S = 10;
/** In open air the middle of a bag follows the room with this time constant for 1 kg, s (4.5 to 7 h to cool, science notes f). */
const AIR_TAU_S = 2.2 * 3600;

/** The safety valve of a cooker with a dial is heard; a weight jiggles all the time and tells nothing. */
function roar(world: World, vessel: Vessel): void {
  if (world.kitchen.gauge !== 'dial' || gaugeKPa(vessel) < vessel.parts.liftKPa) return;
  if (world.second - world.roaredAt > HEARD_AGAIN_S) {
    world.roaredAt = world.second;
    sense(world, 'safety-valve');
  }
}

function cook(world: World, step: StepId): void {
  const { vessel, load, burner } = world;
  if (vessel === null || load === null) return;
  stepVessel(vessel, load, powerW(burner));
  world.jetS = isJet(vessel) ? world.jetS + 1 : vessel.open ? 0 : world.jetS;
  if (step !== 'cool' || vessel.celsius > 90 || meanC(load) > 95)
    followCentre(load, vessel.celsius, !isDry(vessel));
  roar(world, vessel);
  const facts = loadFacts(world);
  if (facts === undefined) return;
  if (isDry(vessel)) {
    facts.dryS += 1;
    // A dry pot smells after a while, and keeps on smelling.
    if (facts.dryS > 60 && world.second - world.smeltAt > HEARD_AGAIN_S) {
      world.smeltAt = world.second;
      sense(world, 'burnt-smell');
    }
  }
  if (vessel.open) facts.openKPa = Math.max(facts.openKPa, gaugeKPa(vessel));
  if (step === 'hold' || step === 'climb' || step === 'heat-off') {
    if (facts.offT === null && vessel.celsius >= world.numbers.targetC - TARGET_GRAIN_K && !isDry(vessel)) {
      facts.aboveS += 1;
    }
    const gauge = gaugeKPa(vessel);
    facts.mostKPa = Math.max(facts.mostKPa, gauge);
    if (step === 'hold') facts.leastKPa = Math.min(facts.leastKPa, gauge);
  }
}

/** Things that come by themselves while the hold runs. */
function disturb(world: World): void {
  if (world.ringsAt === null || world.second < world.ringsAt) return;
  world.ringsAt = null;
  const minutes = between(18, 25, chance(world.seed, 'call'));
  world.awayUntil = world.second + Math.round(minutes * 60);
  world.facts.away = { from: world.second * 1000, to: world.awayUntil * 1000, told: false };
  sense(world, 'phone-rings');
  // The window was opened: a draught takes half of the flame away.
  turn(world.burner, Math.max(1, Math.round(world.burner.knob * 0.4)));
}

function simmer(world: World): void {
  const { pot, grain, burner } = world;
  if (pot === null || grain === null) return;
  const before = pot.boiledOver;
  stepPot(pot, powerW(burner));
  takeUp(pot, hydrate(grain, pot.celsius, simmering(pot), 1));
  if (pot.boiledOver > before) {
    world.facts.boiledOver += 1;
    sense(world, 'boils-over');
  }
}

function slowly(world: World, step: StepId): void {
  const { pot, grain, surface, kitchen } = world;
  if (step === 'soak' && pot !== null && grain !== null) {
    takeUp(pot, hydrate(grain, kitchen.roomC, 0, SLOW_S));
  }
  if (step === 'surface-dry' && surface !== null && grain !== null) dryInside(grain, lie(surface, SLOW_S));
  if (step === 'seal-after' || step === 'rest' || step === 'inoculate' || step === 'unload') {
    const tau = AIR_TAU_S * (world.recipe.containers.fillKg / 1) ** (2 / 3);
    world.bagC = kitchen.roomC + (world.bagC - kitchen.roomC) * Math.exp(-SLOW_S / tau);
  }
}

/** Lets whole seconds pass while the coach stands in one step. */
export function passWorld(world: World, step: StepId, seconds: number): void {
  // Steps in which nothing moves by the second are crossed from one slow beat to the next.
  const quick = world.vessel === null && step !== 'simmer' && world.burner.knob === 0;
  const end = world.second + seconds;
  while (world.second < end) {
    const toBeat = SLOW_S - (world.second % SLOW_S);
    world.second += quick ? Math.min(toBeat, end - world.second) : 1;
    if (world.awayUntil !== null && world.second >= world.awayUntil) {
      world.awayUntil = null;
      sense(world, 'phone-over');
    }
    burn(world.burner, 1);
    if (world.vessel !== null) cook(world, step);
    if (step === 'simmer') simmer(world);
    else if (step === 'hold') disturb(world);
    if (world.second % SLOW_S === 0) slowly(world, step);
  }
}
