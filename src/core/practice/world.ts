/**
 * The simulated kitchen: grain, pot, towels, cooker, burner, and what goes wrong. It moves by whole seconds
 * whatever the speed on screen, so that 1x and 240x give the same batch; all chance comes from the seed.
 */
import type { StepId } from '../batch/steps.ts';
import type { Kitchen } from '../kitchen.ts';
import type { RunNumbers } from '../plan/numbers.ts';
import type { Recipe } from '../recipe/recipe.ts';
import { COOLING_LOSS_WK } from '../science/cooldown.ts';
import { ALUMINIUM_CP_KJ_KGK } from '../science/constants.ts';
import { type Burner, burn, createBurner, powerW, turn } from './burner.ts';
import { between, chance } from './chance.ts';
import { type Facts, type LoadFacts, noFacts } from './facts.ts';
import type { FaultId } from './faults.ts';
import { type Grain, dryInside, hydrate } from './grain.ts';
import { type Load, createLoad, followCentre, meanC, volumeL } from './load.ts';
import { type Pot, simmering, stepPot, takeUp } from './pot.ts';
import { type Surface, lie } from './surface.ts';
import {
  type Vessel,
  type VesselParts,
  airShare,
  fillVessel,
  gaugeKPa,
  isDry,
  stepVessel,
} from './vessel.ts';

/** Openings, m2: a vent pipe of 4.5 mm; what a sound cooker bleeds (about 1 g/min at 15 psi); room air under vacuum. */
const VENT_M2 = 1.6e-5;
const BLEED_M2 = 3e-8;
const IN_M2 = 2e-9;
const WEIGHT_M2 = 2e-6;
/** A cracked gasket lets out more than the burner can make; a blocked pipe almost nothing. */
const LEAK_M2 = 1.3e-6;
const BLOCKED = 0.015;
/** Gas between the kernels of a pressed bag: 40 % of its volume. */
const PORES = 0.4;
/** A jet that can be called steady: this much steam, and hardly any air in it. */
export const STEADY_G_MIN = 4.5;
const STEADY_AIR = 0.1;
/** Half a dial's grain under the target still counts as being there, K. */
const TARGET_GRAIN_K = 0.6;
/** Slow things move in steps of this, s. */
const SLOW_S = 10;
/** In open air the middle of a bag follows the room with this time constant for 1 kg, s (4.5 to 7 h to cool, science notes f). */
const AIR_TAU_S = 2.2 * 3600;

export type SenseCode =
  | 'boils-over'
  | 'phone-rings'
  | 'phone-over'
  | 'burnt-smell'
  | 'tempted'
  | 'safety-valve';
/** Something heard or smelt: it comes by itself. */
export interface Sense {
  readonly second: number;
  readonly code: SenseCode;
}

export interface World {
  readonly seed: number;
  readonly faults: ReadonlySet<FaultId>;
  readonly recipe: Recipe;
  readonly kitchen: Kitchen;
  readonly numbers: RunNumbers;
  readonly burner: Burner;
  readonly facts: Facts;
  readonly senses: Sense[];
  second: number;
  grain: Grain | null;
  pot: Pot | null;
  surface: Surface | null;
  vessel: Vessel | null;
  load: Load | null;
  /** What the dial adds to the truth, kPa; gear faults that were mended are gone. */
  gaugeOffsetKPa: number;
  leaking: boolean;
  blocked: boolean;
  coldAirKg: number;
  pours: number;
  jetS: number;
  /** Nobody is at the stove until this second. */
  awayUntil: number | null;
  ringsAt: number | null;
  /** Middle of the fullest container once it is out, C. */
  bagC: number;
  /** Seconds since anything was last said of a smell. */
  smeltAt: number;
}

export interface WorldOptions {
  readonly seed: number;
  readonly faults: readonly FaultId[];
  readonly recipe: Recipe;
  readonly kitchen: Kitchen;
  readonly numbers: RunNumbers;
}

const GAUGE_HIGH_KPA = 13.8;

export function createWorld({ seed, faults, recipe, kitchen, numbers }: WorldOptions): World {
  const set = new Set(faults);
  return {
    seed,
    faults: set,
    recipe,
    kitchen,
    numbers,
    burner: createBurner(kitchen, seed, set),
    facts: noFacts(),
    senses: [],
    second: 0,
    grain: null,
    pot: null,
    surface: null,
    vessel: null,
    load: null,
    gaugeOffsetKPa: set.has('gauge-high') ? GAUGE_HIGH_KPA : 0,
    leaking: set.has('leaking-gasket'),
    blocked: set.has('blocked-vent'),
    coldAirKg: 0,
    pours: 0,
    jetS: 0,
    awayUntil: null,
    ringsAt: null,
    bagC: kitchen.roomC,
    smeltAt: Number.NEGATIVE_INFINITY,
  };
}

export const loadFacts = ({ facts }: World): LoadFacts | undefined => facts.loads.at(-1);

function vesselParts({ kitchen, numbers, recipe, leaking, blocked }: World, count: number): VesselParts {
  return {
    metalKJK: kitchen.cookerMassKg * ALUMINIUM_CP_KJ_KGK,
    roomL: kitchen.cookerL - count * volumeL(recipe.containers),
    lossWK: COOLING_LOSS_WK.likely,
    ambientC: kitchen.roomC,
    atmosphereKPa: numbers.atmosphereKPa,
    ventM2: VENT_M2 * (blocked ? BLOCKED : 1),
    bleedM2: BLEED_M2,
    leakM2: leaking ? LEAK_M2 : 0,
    inM2: IN_M2,
    weightM2: WEIGHT_M2,
    liftKPa: kitchen.gauge === 'weight' ? kitchen.workingKPa : kitchen.markedMaxKPa * 1.04,
  };
}

/** The lid goes on over this load and this much water. */
export function closeLid(world: World, count: number, litres: number): void {
  const { kitchen, recipe } = world;
  const fillKg = recipe.containers.fillKg;
  const poresL = count * volumeL(recipe.containers) * PORES;
  world.load = createLoad({ containers: recipe.containers, count, fillKg, startC: kitchen.roomC });
  world.vessel = fillVessel(vesselParts(world, count), {
    waterKg: litres,
    bagGasL: poresL,
    celsius: kitchen.roomC,
  });
  world.coldAirKg = world.vessel.airKg + world.vessel.bagAirKg;
  world.jetS = 0;
}

export function sense(world: World, code: SenseCode): void {
  world.senses.push({ second: world.second, code });
}

/** Air left in chamber and containers, share of what was there cold. */
export const airLeft = ({ vessel, coldAirKg }: World): number =>
  vessel === null ? 1 : (vessel.airKg + vessel.bagAirKg) / coldAirKg;

/** The jet from the vent pipe is one that may be called steady. */
export const isJet = (vessel: Vessel): boolean =>
  vessel.open && vessel.steamGS * 60 >= STEADY_G_MIN && airShare(vessel) < STEADY_AIR;

function cook(world: World, step: StepId): void {
  const { vessel, load, burner } = world;
  if (vessel === null || load === null) return;
  stepVessel(vessel, load, powerW(burner));
  world.jetS = isJet(vessel) ? world.jetS + 1 : vessel.open ? 0 : world.jetS;
  if (step !== 'cool' || vessel.celsius > 90 || meanC(load) > 95)
    followCentre(load, vessel.celsius, !isDry(vessel));
  const facts = loadFacts(world);
  if (facts === undefined) return;
  if (isDry(vessel)) {
    facts.dryS += 1;
    // A dry pot smells after a while, and keeps on smelling.
    if (facts.dryS > 60 && world.second - world.smeltAt > 600) {
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
