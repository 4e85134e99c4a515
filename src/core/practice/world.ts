/**
 * The simulated kitchen: grain, pot, towels, cooker, burner, and what goes wrong. It moves by whole seconds
 * whatever the speed on screen, so that 1x and 240x give the same batch; all chance comes from the seed.
 */
import type { Kitchen } from '../kitchen.ts';
import type { RunNumbers } from '../plan/numbers.ts';
import { containerVolumeL } from '../recipe/body.ts';
import type { Recipe } from '../recipe/recipe.ts';
import { COOLING_LOSS_WK } from '../science/cooldown.ts';
import { ALUMINIUM_CP_KJ_KGK } from '../science/constants.ts';
import { type Burner, createBurner } from './burner.ts';
import { type Facts, type LoadFacts, noFacts } from './facts.ts';
import type { FaultId } from './faults.ts';
import type { Grain } from './grain.ts';
import { type Load, createLoad } from './load.ts';
import type { Pot } from './pot.ts';
import type { Surface } from './surface.ts';
import { type Vessel, type VesselParts, airShare, fillVessel } from './vessel.ts';

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
  /** All the grain as it was weighed; what is simmered in several fillings waits in it. */
  lot: Grain | null;
  readonly fillings: Grain[];
  /** What is in the pot, or on the towels. */
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
  /** The cooker is moved by slow steps, from one beat to the next. */
  resting: boolean;
  /** Nobody is at the stove until this second. */
  awayUntil: number | null;
  ringsAt: number | null;
  /** Middle of the fullest container once it is out, C. */
  bagC: number;
  /** Seconds since anything was last said of a smell. */
  smeltAt: number;
  /** Second at which the safety valve was last heard. */
  roaredAt: number;
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
    lot: null,
    fillings: [],
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
    resting: false,
    awayUntil: null,
    ringsAt: null,
    bagC: kitchen.roomC,
    smeltAt: Number.NEGATIVE_INFINITY,
    roaredAt: Number.NEGATIVE_INFINITY,
  };
}

export const loadFacts = ({ facts }: World): LoadFacts | undefined => facts.loads.at(-1);

function vesselParts({ kitchen, numbers, recipe, leaking, blocked }: World, count: number): VesselParts {
  return {
    metalKJK: kitchen.cookerMassKg * ALUMINIUM_CP_KJ_KGK,
    roomL: kitchen.cookerL - count * containerVolumeL(recipe.containers.size),
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
  const poresL = count * containerVolumeL(recipe.containers.size) * PORES;
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
