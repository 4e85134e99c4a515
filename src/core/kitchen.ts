/**
 * The person's kitchen: where the batch is cooked and with what. Every value has a default, so that no
 * question must be answered; what the person never said is listed in `assumed` and marked on the sheet.
 * Inside: metres, litres, kilograms, kPa gauge, watts. Units at the edge are the person's own.
 */

export type GaugeKind = 'dial' | 'weight';
export type BurnerKind = 'gas' | 'electric' | 'induction';

export interface Units {
  readonly mass: 'kg' | 'lb';
  readonly volume: 'L' | 'qt';
  readonly pressure: 'psi' | 'kPa' | 'bar';
  readonly temperature: 'C' | 'F';
  readonly length: 'cm' | 'in';
}

export interface AlertWishes {
  readonly bell: boolean;
  /** Window title, progress and notifications by escape sequence. */
  readonly terminal: boolean;
  readonly speech: boolean;
  /** Minutes after midnight, local time; equal values mean no quiet hours. */
  readonly quietFromMin: number;
  readonly quietToMin: number;
}

/** Prices are the person's own; 0 means "not said" and leaves the cost out. */
export interface Money {
  readonly currency: string;
  readonly grainPerKg: number;
  readonly containerEach: number;
  readonly culturePerBatch: number;
  readonly energyPerBatch: number;
  readonly boughtEach: number;
  readonly gear: number;
}

export interface Kitchen {
  /** Metres above sea level, -430 to 5000. */
  readonly altitudeM: number;
  /** Measured local (station) air pressure in kPa; wins over the altitude when given. */
  readonly stationKPa: number | null;
  readonly roomC: number;
  /** Open pot for the simmer, litres. */
  readonly potL: number;
  readonly cookerL: number;
  readonly cookerInnerDiameterM: number;
  readonly cookerInnerHeightM: number;
  readonly cookerMassKg: number;
  /** Gauge pressure the cooker works at (the weight's mark, or the dial's usual target), kPa. */
  readonly workingKPa: number;
  /** Highest gauge pressure marked on the cooker, kPa: never to be exceeded. */
  readonly markedMaxKPa: number;
  readonly gauge: GaugeKind;
  /** Maker's minimum water, litres. */
  readonly minimumWaterL: number;
  readonly burner: BurnerKind;
  readonly burnerW: number;
  /** Greatest load the hob's maker allows, kg; null when unknown. */
  readonly hobLimitKg: number | null;
  readonly units: Units;
  readonly alerts: AlertWishes;
  readonly money: Money;
  /** Effective diffusivity in m2/s the person measured with a probe, by container key (see recipe). */
  readonly measuredDiffusivity: Readonly<Record<string, number>>;
}

/** What the person said; anything absent is assumed. */
export type KitchenAnswers = { readonly [K in keyof Kitchen]?: Kitchen[K] };

/** The invented hill-town flat that stands in for every answer not given. */
export const DEFAULT_KITCHEN: Kitchen = {
  altitudeM: 640,
  stationKPa: null,
  roomC: 21,
  potL: 10,
  cookerL: 21,
  cookerInnerDiameterM: 0.3,
  cookerInnerHeightM: 0.29,
  cookerMassKg: 5.5,
  workingKPa: 103.4,
  markedMaxKPa: 124,
  gauge: 'dial',
  minimumWaterL: 2,
  burner: 'gas',
  burnerW: 3000,
  hobLimitKg: null,
  units: { mass: 'kg', volume: 'L', pressure: 'psi', temperature: 'C', length: 'cm' },
  alerts: { bell: true, terminal: true, speech: false, quietFromMin: 0, quietToMin: 0 },
  money: {
    currency: '',
    grainPerKg: 0,
    containerEach: 0,
    culturePerBatch: 0,
    energyPerBatch: 0,
    boughtEach: 0,
    gear: 0,
  },
  measuredDiffusivity: {},
};

export interface KnownKitchen {
  readonly kitchen: Kitchen;
  /** Keys the person never answered. */
  readonly assumed: ReadonlySet<keyof Kitchen>;
}

/** Usual power by kind of burner, W: the worked examples of the science notes (g). */
const USUAL_POWER_W: Readonly<Record<BurnerKind, number>> = { gas: 3000, electric: 1800, induction: 2000 };

/** Sides that a cooker may have at all, m: those of `KITCHEN_LIMITS`, which reads this file. */
const WIDTH_M = { least: 0.1, most: 1 };
const HEIGHT_M = { least: 0.08, most: 1.5 };

/**
 * What goes with the answers that were given: a cooker whose volume alone is known has the usual one's shape,
 * a burner whose kind alone is known its kind's power, and a working pressure that nobody said is never above
 * the cooker's mark.
 */
function usualFor(answers: KitchenAnswers): Kitchen {
  const { cookerL, burner, markedMaxKPa } = { ...DEFAULT_KITCHEN, ...answers };
  const { cookerInnerDiameterM: wide, cookerInnerHeightM: high } = answers;
  const scale = Math.cbrt(cookerL / DEFAULT_KITCHEN.cookerL);
  const said = answers.cookerL !== undefined;
  const widthM =
    said && high !== undefined
      ? Math.sqrt((4 / Math.PI) * (cookerL / 1000 / high))
      : DEFAULT_KITCHEN.cookerInnerDiameterM * scale;
  const heightM =
    said && wide !== undefined
      ? cookerL / 1000 / ((Math.PI / 4) * wide ** 2)
      : DEFAULT_KITCHEN.cookerInnerHeightM * scale;
  return {
    ...DEFAULT_KITCHEN,
    burnerW: USUAL_POWER_W[burner],
    // Walls of the same thickness weigh as their area does.
    cookerMassKg: Math.round(DEFAULT_KITCHEN.cookerMassKg * scale ** 2 * 10) / 10,
    cookerInnerDiameterM: toMillimetres(widthM, WIDTH_M),
    cookerInnerHeightM: toMillimetres(heightM, HEIGHT_M),
    workingKPa: Math.min(DEFAULT_KITCHEN.workingKPa, markedMaxKPa),
  };
}
const toMillimetres = (metres: number, { least, most }: { least: number; most: number }): number =>
  Math.min(most, Math.max(least, Math.round(metres * 1000) / 1000));

/** Answers over usual values; both are kept apart so that "assumed" can be shown. */
export function withDefaults(answers: KitchenAnswers): KnownKitchen {
  const keys = Object.keys(DEFAULT_KITCHEN) as (keyof Kitchen)[];
  return {
    kitchen: { ...usualFor(answers), ...answers },
    assumed: new Set(keys.filter(key => answers[key] === undefined)),
  };
}
