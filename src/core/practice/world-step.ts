/** Lets time pass in the simulated kitchen, by whole seconds, as far as the coach's step makes anything move. */
import type { StepId } from '../batch/steps.ts';
import { burn, powerW, turn } from './burner.ts';
import { between, chance } from './chance.ts';
import { soakOn } from './fillings.ts';
import { dryInside, hydrate } from './grain.ts';
import { LIMITS } from './limits.ts';
import { followCentre, meanC, SLOW_S } from './load.ts';
import { simmering, stepPot, takeUp } from './pot.ts';
import { lie } from './surface.ts';
import { type Vessel, gaugeKPa, isDry } from './vessel.ts';
import { stepVessel } from './vessel-step.ts';
import { type World, isJet, loadFacts, sense } from './world.ts';

/** Half a dial's grain under the target still counts as being there, K. */
const TARGET_GRAIN_K = 0.6;
/** What smells or roars on and on is said again after so long, s. */
const HEARD_AGAIN_S = 600;
/** A shut cooker off the heat moves by the slow beat once it and its load are no hotter than this, C. */
const RESTS_C = 90;
/** A soak of hours moves by the minute, s. */
const SOAK_S = 60;
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

/** Shut, off the heat and below boiling: only the slow beat moves it. */
function rests({ vessel, load, burner }: World, step: StepId): boolean {
  if (step !== 'cool' || vessel === null || load === null) return false;
  return !vessel.open && burner.knob === 0 && vessel.celsius < RESTS_C && meanC(load) < RESTS_C;
}

function cook(world: World, step: StepId): void {
  const { vessel, load, burner } = world;
  if (vessel === null || load === null) return;
  const seconds = world.resting ? SLOW_S : 1;
  stepVessel(vessel, load, powerW(burner), world.resting);
  world.jetS = isJet(vessel) ? world.jetS + 1 : vessel.open ? 0 : world.jetS;
  // What the heat was worth is settled at heat-off.
  if (step !== 'cool') followCentre(load, vessel.celsius, !isDry(vessel));
  roar(world, vessel);
  const facts = loadFacts(world);
  if (facts === undefined) return;
  if (isDry(vessel)) {
    facts.dryS += seconds;
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
    if (step !== 'climb' && gauge > world.numbers.targetKPa + LIMITS.overKPa) facts.overS += 1;
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
  if (pot.waterKg > 0) takeUp(pot, hydrate(grain, pot.celsius, simmering(pot), 1));
  if (pot.boiledOver > before) {
    world.facts.boiledOver += 1;
    sense(world, 'boils-over');
  }
}

function slowly(world: World, step: StepId): void {
  const { grain, surface, kitchen } = world;
  const soaks = step === 'soak' || ((step === 'simmer' || step === 'drain') && world.lot !== grain);
  if (soaks && world.second % SOAK_S === 0) soakOn(world, SOAK_S);
  if (step === 'surface-dry' && surface !== null && grain !== null) dryInside(grain, lie(surface, SLOW_S));
  if (step === 'seal-after' || step === 'rest' || step === 'inoculate' || step === 'unload') {
    const tau = AIR_TAU_S * (world.recipe.containers.fillKg / 1) ** (2 / 3);
    world.bagC = kitchen.roomC + (world.bagC - kitchen.roomC) * Math.exp(-SLOW_S / tau);
  }
}

/** Lets whole seconds pass while the coach stands in one step. */
export function passWorld(world: World, step: StepId, seconds: number): void {
  // Steps in which nothing moves by the second are crossed from one slow beat to the next.
  const still = world.vessel === null && step !== 'simmer' && world.burner.knob === 0;
  const end = world.second + seconds;
  while (world.second < end) {
    const toBeat = SLOW_S - (world.second % SLOW_S);
    if (world.burner.knob !== 0 || world.vessel === null) world.resting = false;
    world.second += still || world.resting ? Math.min(toBeat, end - world.second) : 1;
    const beat = world.second % SLOW_S === 0;
    if (world.awayUntil !== null && world.second >= world.awayUntil) {
      world.awayUntil = null;
      sense(world, 'phone-over');
    }
    burn(world.burner, 1);
    if (world.vessel !== null && (beat || !world.resting)) cook(world, step);
    if (step === 'simmer') simmer(world);
    else if (step === 'hold') disturb(world);
    if (!beat) continue;
    slowly(world, step);
    world.resting = rests(world, step);
  }
}
