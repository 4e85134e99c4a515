/**
 * A recipe as the program uses it: parsed, checked, in SI units. The file format is described by
 * `schema.ts`; durations are seconds, masses kilograms, lengths metres, pressures kPa gauge, moisture a
 * wet-basis fraction 0..1.
 */
import { type Grain, GRAINS } from '../science/grains.ts';

export { GRAINS, type Grain };

export type ContainerKind = 'bag' | 'jar';

/** Size of one filled container: a bag is a brick, a jar an upright cylinder. */
export type ContainerSize =
  | {
      readonly shape: 'brick';
      readonly lengthM: number;
      readonly widthM: number;
      readonly thicknessM: number;
    }
  | { readonly shape: 'cylinder'; readonly diameterM: number; readonly heightM: number };

export interface Containers {
  readonly kind: ContainerKind;
  readonly count: number;
  /** Hydrated grain in each, kg. */
  readonly fillKg: number;
  readonly size: ContainerSize;
  /** Hydrated grain that fits below the filter or the shoulder, kg: filling above is refused. */
  readonly mostKg: number;
  /** Pressed against one another in the cooker, so that they heat as one body. */
  readonly touching: boolean;
}

export interface Soak {
  readonly shortestS: number;
  readonly longestS: number;
}

export interface Simmer {
  readonly firstLookS: number;
  readonly everyS: number;
  /** Interval once only a thin white line is left. */
  readonly nearS: number;
  /** Litres of water for each kg of dry grain. */
  readonly waterPerKg: number;
}

export interface Drying {
  readonly aboutS: number;
  readonly stirEveryS: number;
  readonly towelS: number;
}

export type Target =
  | { readonly by: 'pressure'; readonly gaugeKPa: number }
  | { readonly by: 'temperature'; readonly celsius: number };

export type DipPolicy = 'restart' | 'make up';
export type SealWhen = 'before' | 'after';
export type CultureForm = 'liquid culture' | 'spore syringe' | 'grain spawn';

export interface Culture {
  readonly form: CultureForm;
  /** Species as the person writes it; may be empty. */
  readonly species: string;
  /** mL of liquid (or g of grain spawn) for each container. */
  readonly perContainer: number;
}

export interface Recipe {
  readonly name: string;
  readonly grain: Grain;
  readonly note: string;
  readonly containers: Containers;
  readonly storedMoisture: number;
  readonly wantedMoisture: number;
  readonly soak: Soak | null;
  readonly simmer: Simmer;
  readonly drying: Drying;
  readonly seal: SealWhen;
  /** Poured into the cooker for each load at least, L; absent: what the plan works out. */
  readonly cookerWaterL?: number;
  readonly ventS: number;
  readonly target: Target;
  readonly holdS: number;
  readonly dips: DipPolicy;
  /** Shut time from heat-off that protects the containers. */
  readonly coolS: number;
  readonly culture: Culture;
}

/** Names a kind of container for measured values kept in the kitchen: "bag 18x11x8". */
export function containerKey({ kind, size }: Containers): string {
  const cm = (m: number) => String(Math.round(m * 1000) / 10);
  return size.shape === 'brick'
    ? `${kind} ${cm(size.lengthM)}x${cm(size.widthM)}x${cm(size.thicknessM)}`
    : `${kind} ${cm(size.diameterM)}x${cm(size.heightM)}`;
}
