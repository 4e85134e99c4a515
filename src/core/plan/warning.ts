/** A warning as data: a code and the numbers its sentence needs. The words are in `words/plan-warnings.ts`. */

/** `no`: the batch must not be begun so. `watch`: it works, but this costs something. `note`: worth knowing. */
export type Weight = 'no' | 'watch' | 'note';

export type WarningCode =
  | 'too-cool'
  | 'too-long'
  | 'burner-weak'
  | 'no-fit'
  | 'hob-limit'
  | 'water-too-high'
  | 'hold-short'
  | 'hold-cautious'
  | 'hold-lengthened'
  | 'high-altitude'
  | 'touching'
  | 'over-filter'
  | 'fill-odd'
  | 'short-vent'
  | 'pot-fillings'
  | 'more-loads'
  | 'moisture-odd'
  | 'culture-wet'
  | 'boils-dry'
  | 'heavy'
  | 'lock-longer'
  | 'cooker-odd'
  | 'water-asked'
  | 'vessel-assumed';

/** Numbers of a warning by name, in inside units. */
export interface Warning {
  readonly code: WarningCode;
  readonly weight: Weight;
  readonly values: Readonly<Record<string, number>>;
}
