/** What the answers given to the coach do in the simulated kitchen, and what really was when they were given. */
import { fillingsOf, inLoad } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import type { StepId } from '../batch/steps.ts';
import type { Deed } from '../session.ts';
import { KNOB_TOP, turn } from './burner.ts';
import { beginHold, heatOff, noteSteady, openLid, shut } from './cooker-deeds.ts';
import { newLoad } from './facts.ts';
import { GEAR_FAULTS } from './faults.ts';
import { fillTheirPot, heap, noteDrained } from './fillings.ts';
import { burstShare, createGrain, meanX, moistureOf } from './grain.ts';
import { meanG, spread, stir } from './surface.ts';
import { type World, closeLid, loadFacts, sense } from './world.ts';

/** A jug that was put down and forgotten: what is really in the cooker, L. */
const FORGOTTEN_L = 0.15;
/** Knob that keeps a pot at a gentle simmer, about. */
export const SIMMER_KNOB = 4;
/** More burst kernels than this make the rinse starchy. */
const STARCHY_BURST = 0.15;

/** A coach that stands in another step than before: the kitchen follows. */
export function enterStep(world: World, step: StepId, batch: Batch): void {
  const { recipe, kitchen, numbers, seed, burner, facts } = world;
  switch (step) {
    case 'soak':
    case 'simmer':
      // A soak of more than one filling is in a bucket.
      if (step === 'simmer' || fillingsOf(batch) === 1) fillTheirPot(world, batch);
      else world.lot ??= createGrain(recipe, batch.dryKg, seed, world.faults);
      if (step === 'simmer') turn(burner, KNOB_TOP);
      break;
    case 'drain':
      turn(burner, 0);
      noteDrained(world, batch.now);
      break;
    case 'surface-dry': {
      const grain = heap(world);
      if (grain === null) break;
      world.grain = grain;
      const starchy = facts.boiledOver > 0 || burstShare(grain) > STARCHY_BURST;
      world.surface = spread(grain.dryKg * (1 + meanX(grain)), recipe.drying.aboutS, seed, starchy);
      break;
    }
    case 'portion':
      bag(world, batch);
      break;
    case 'load':
      world.vessel = null;
      world.load = null;
      break;
    case 'heat':
      turn(burner, KNOB_TOP);
      if (world.vessel !== null) world.vessel.open = true;
      break;
    case 'hold':
      beginHold(world, batch);
      break;
    case 'unload':
      openLid(world, batch);
      break;
    default:
      break;
  }
  if (step === 'simmer') world.bagC = kitchen.roomC;
  if (step === 'done' && numbers.loads.length > 0) turn(burner, 0);
}

function bag(world: World, batch: Batch): void {
  const { grain, surface, facts } = world;
  if (grain === null || surface === null) return;
  const inside = moistureOf(grain);
  facts.bagged = {
    t: batch.now,
    moisture: inside,
    filmG: meanG(surface),
    driedPoints: Math.max(0, ((facts.drained?.moisture ?? inside) - inside) * 100),
  };
}

/** What a taken answer does. `before` is the batch as it was asked, `after` as it is now. */
export function answered(world: World, before: Batch, deed: Deed, after: Batch): void {
  if (deed.type === 'trouble' && deed.trouble === 'was-away' && world.facts.away !== null) {
    world.facts.away.told = true;
  }
  if (deed.type !== 'answer') return;
  const { numbers, facts } = world;
  switch (`${deed.ask}/${deed.choice}`) {
    case 'gear-check/missing':
      mend(world);
      break;
    case 'simmer-start/simmers':
      if (world.burner.knob === KNOB_TOP) turn(world.burner, SIMMER_KNOB);
      break;
    case 'drying/stirred':
      if (world.surface !== null) stir(world.surface);
      break;
    case 'cooker-water/as-planned':
    case 'cooker-water/poured': {
      const wanted = deed.amount ?? numbers.cookerWaterL;
      world.pours += 1;
      const poured = world.faults.has('forgotten-water') && world.pours === 1 ? FORGOTTEN_L : wanted;
      const last = loadFacts(world);
      if (last !== undefined && last.load === before.load) last.pouredL = poured;
      else facts.loads.push(newLoad(before.load, wanted, poured));
      break;
    }
    case 'lid/lid-on':
      closeLid(world, inLoad(before).length, loadFacts(world)?.pouredL ?? numbers.cookerWaterL);
      break;
    case 'steam/steady':
      noteSteady(world, after);
      break;
    case 'venting/valve-closed':
      shut(world, after);
      break;
    case 'flame/flame-off':
      heatOff(world, after);
      break;
    case 'warmth/room':
      facts.inoculatedC = world.bagC;
      break;
    default:
      break;
  }
}

/** Whoever says that something is missing has looked, and mends what an eye can find. */
function mend(world: World): void {
  world.facts.gearFound = GEAR_FAULTS.filter(fault => world.faults.has(fault));
  world.gaugeOffsetKPa = 0;
  world.leaking = false;
  world.blocked = false;
}

/** Someone asks for the table back long before it is cool. */
export function temptation(world: World, batch: Batch): void {
  if (!world.faults.has('open-early') || world.facts.tempted || batch.lock === null) return;
  if (batch.ask !== 'shut' || batch.now < batch.lock.pressureUntil) return;
  world.facts.tempted = true;
  sense(world, 'tempted');
}
