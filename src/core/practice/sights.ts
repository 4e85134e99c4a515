/**
 * What eyes, at this moment, can see of the simulated kitchen. A sight is data for a picture and nothing
 * else: it never names the right answer. Which sights there are follows from the coach's step; some are
 * before the eyes all the time, others have to be looked at.
 */
import type { Batch } from '../batch/state.ts';
import { chance, deviate } from './chance.ts';
import { burstShare, cutThree } from './grain.ts';
import { towelWetness } from './surface.ts';
import { airShare, gaugeKPa, isDry } from './vessel.ts';
import type { World } from './world.ts';

export type Sight =
  | { readonly kind: 'gasket'; readonly cracked: boolean }
  | { readonly kind: 'vent-pipe'; readonly clear: boolean }
  /** `steam` and `phase` as `ventDrawing` takes them. */
  | { readonly kind: 'vent'; readonly steam: number; readonly hiss: boolean }
  | { readonly kind: 'dial'; readonly kPa: number }
  | { readonly kind: 'pot'; readonly boiling: number; readonly foam: number }
  | { readonly kind: 'kernel'; readonly core: number }
  | { readonly kind: 'handful'; readonly burst: number }
  | { readonly kind: 'towel'; readonly wetness: number }
  | { readonly kind: 'grain'; readonly shine: number }
  | { readonly kind: 'water'; readonly share: number }
  | { readonly kind: 'pin'; readonly up: boolean }
  | { readonly kind: 'container'; readonly torn: boolean }
  | { readonly kind: 'warmth'; readonly warm: boolean; readonly aboveRoomK: number };
export type SightKind = Sight['kind'];

/** A pin stands up from this gauge pressure on, kPa. */
const PIN_KPA = 4;
/** Half the trembling of a needle, kPa; more while steam rushes. */
const TREMBLE_KPA = 0.7;
/** A hand tells warm from room temperature above this, K. */
const WARM_K = 3;
/** Share of the cooker's height up to the rack, as `cookerDrawing` draws it. */
const RACK_SHARE = 0.3;

/** What can be looked at in this step, first what is before the eyes anyway. */
export function sightKinds(batch: Batch): readonly SightKind[] {
  switch (batch.ask) {
    case 'gear-check':
      return ['gasket', 'vent-pipe', 'dial'];
    case 'simmer-start':
    case 'simmering':
      return ['pot'];
    case 'kernel-centre':
      return ['kernel'];
    case 'burst':
      return ['handful'];
    case 'drying':
      return ['grain'];
    case 'towel':
      return ['towel'];
    case 'cooker-water':
    case 'lid':
      return ['water'];
    case 'steam':
    case 'venting':
      return ['vent', 'dial'];
    case 'climbing':
    case 'holding':
    case 'flame':
      return ['dial', 'vent'];
    case 'gauge-zero':
    case 'shut':
      return ['dial', 'pin'];
    case 'pin':
      return ['pin', 'dial'];
    case 'lifted':
      return ['container'];
    case 'warmth':
      return ['warmth'];
    default:
      return [];
  }
}

/** Sights that are not before the eyes by themselves: somebody has to go and look. */
export const mustLook = (batch: Batch): boolean => batch.ask === 'gear-check' || batch.ask === 'lid';

function dialSight({ vessel, gaugeOffsetKPa, seed, second }: World): Sight {
  const true_ = vessel === null ? 0 : gaugeKPa(vessel);
  const still = true_ < 2;
  const tremble = still ? 0 : TREMBLE_KPA * Math.max(-2, Math.min(2, deviate(seed, 'needle', second)));
  return { kind: 'dial', kPa: Math.max(0, true_) + gaugeOffsetKPa + tremble };
}

/** Steam as the picture draws it: wisps, puffs from 0.15 on, an unbroken jet above 0.75. */
function ventSight({ vessel, leaking, seed, second }: World): Sight {
  if (vessel === null) return { kind: 'vent', steam: 0, hiss: false };
  const hiss = leaking && vessel.steamGS * 60 > 1;
  if (!vessel.open) return { kind: 'vent', steam: 0, hiss };
  const leavesGMin = (vessel.steamGS + vessel.airGS) * 60;
  const pure = 1 - airShare(vessel);
  const strength = Math.min(1, (vessel.steamGS * 60) / 6) * pure;
  // Spurts come and go by themselves before the jet is whole.
  const gusts = strength < 0.75 ? 0.7 + 0.6 * chance(seed, 'gust', second) : 1;
  const seen = strength > 0.75 ? strength : Math.min(0.74, strength * gusts);
  return { kind: 'vent', steam: leavesGMin < 0.05 ? 0 : Math.max(0, Math.min(1, seen)), hiss };
}

/** Looks at one thing. Null when it is not there to be seen. */
export function lookAt(world: World, batch: Batch, kind: SightKind): Sight | null {
  const { grain, pot, surface, vessel, seed, kitchen } = world;
  switch (kind) {
    case 'gasket':
      return { kind, cracked: world.leaking };
    case 'vent-pipe':
      return { kind, clear: !world.blocked };
    case 'dial':
      return dialSight(world);
    case 'vent':
      return ventSight(world);
    case 'pot':
      return pot && { kind, boiling: Math.min(1, pot.steamGMin / 12), foam: Math.min(1, pot.foam) };
    case 'kernel':
      return grain && { kind, core: cutThree(grain, seed, batch.kernels.length) };
    case 'handful':
      return grain && { kind, burst: burstShare(grain) };
    case 'grain':
      return surface && { kind, shine: Math.min(1, surface.upperG / 45) };
    case 'towel':
      return surface && { kind, wetness: towelWetness(surface) };
    case 'water':
      return { kind, share: waterShare(world) };
    case 'pin':
      return vessel && { kind, up: gaugeKPa(vessel) > PIN_KPA && !isDry(vessel) };
    case 'container': {
      const number = batch.containers[batch.cursor]?.number ?? 0;
      return { kind, torn: world.facts.torn.includes(number) };
    }
    case 'warmth': {
      const aboveRoomK = Math.max(0, world.bagC - kitchen.roomC);
      return { kind, warm: aboveRoomK > WARM_K, aboveRoomK };
    }
  }
}

/** Depth of the water as a share of the cooker's height: the rack is never so high as it is drawn, so the scale is to the rack. */
function waterShare({ facts, numbers, pours }: World): number {
  if (pours === 0) return 0;
  const litres = facts.loads.at(-1)?.pouredL ?? 0;
  return Math.min(1, RACK_SHARE * 0.9 * (litres / numbers.cookerWaterL));
}
