/**
 * Thermal properties from composition: Choi & Okos (1986) as in ASHRAE Refrigeration 2006, ch. 9.
 *
 * Each component's property is a0 + a1 t + a2 t^2, t in C, -40 to 150 C; coefficients read in the source of
 * CoolProp, an open library. Specific heat adds by mass; volume adds; conductivity adds by volume (parallel
 * model), which is an upper bound for a kernel. A heap of kernels conducts far less: `bulkThermal`.
 */
import type { Proximate } from './grains.ts';
import { notNegative, positive, within } from './limits.ts';

export const COMPONENTS = ['water', 'protein', 'fat', 'carb', 'fibre', 'ash'] as const;
export type Component = (typeof COMPONENTS)[number];
export type Property = 'k' | 'rho' | 'cp';
export type Quadratic = readonly [number, number, number];

/** k in W/mK, rho in kg/m3, cp in kJ/kgK. */
export const CHOI_OKOS: Readonly<Record<Component, Readonly<Record<Property, Quadratic>>>> = {
  water: {
    k: [0.57109, 1.7625e-3, -6.7036e-6],
    rho: [997.18, 3.1439e-3, -3.7574e-3],
    cp: [4.1289, -9.0864e-5, 5.4731e-6],
  },
  protein: {
    k: [0.17881, 1.1958e-3, -2.7178e-6],
    rho: [1329.9, -0.5184, 0],
    cp: [2.0082, 1.2089e-3, -1.3129e-6],
  },
  fat: {
    k: [0.18071, -2.7604e-4, -1.7749e-7],
    rho: [925.59, -0.41757, 0],
    cp: [1.9842, 1.4733e-3, -4.8008e-6],
  },
  carb: {
    k: [0.20141, 1.3874e-3, -4.3312e-6],
    rho: [1599.1, -0.31046, 0],
    cp: [1.5488, 1.9625e-3, -5.9399e-6],
  },
  fibre: {
    k: [0.18331, 1.2497e-3, -3.1683e-6],
    rho: [1311.5, -0.36589, 0],
    cp: [1.8459, 1.8306e-3, -4.6509e-6],
  },
  ash: {
    k: [0.32962, 1.4011e-3, -2.9069e-6],
    rho: [2423.8, -0.28063, 0],
    cp: [1.0926, 1.8896e-3, -3.6817e-6],
  },
};

/** A pure component's property at a temperature. Valid -40 to 150 C (RangeError outside). */
export function componentProperty(component: Component, property: Property, celsius: number): number {
  within('Temperature', celsius, -40, 150, 'C');
  const [a0, a1, a2] = CHOI_OKOS[component][property];
  return a0 + celsius * (a1 + celsius * a2);
}

/** Masses of the components in any unit, not all zero. */
export type Composition = Readonly<Record<Component, number>>;

/** Dry matter of a proximate analysis brought to a wet-basis moisture; carbohydrate by difference loses its fibre. */
export function atMoisture(proximate: Proximate, moisture: number): Composition {
  if (!(moisture >= 0 && moisture < 1)) {
    throw new RangeError(`Moisture must be a wet-basis fraction from 0 to below 1, not ${moisture}.`);
  }
  const fibre = proximate.fibrePct ?? 0;
  const dry = {
    protein: notNegative('Protein', proximate.proteinPct, '%'),
    fat: notNegative('Fat', proximate.fatPct, '%'),
    carb: notNegative('Carbohydrate without fibre', proximate.carbohydratePct - fibre, '%'),
    fibre,
    ash: notNegative('Ash', proximate.ashPct, '%'),
  };
  const dryMass = dry.protein + dry.fat + dry.carb + dry.fibre + dry.ash;
  return { ...dry, water: (dryMass * moisture) / (1 - moisture) };
}

export interface Thermal {
  readonly densityKgM3: number;
  readonly cpKJKgK: number;
  readonly conductivityWMK: number;
  readonly diffusivityM2S: number;
}

/** Density, specific heat, conductivity and diffusivity of a solid of that composition. -40 to 150 C. */
export function thermalProperties(composition: Composition, celsius: number): Thermal {
  let mass = 0;
  let volume = 0;
  let heat = 0;
  let conductance = 0;
  for (const component of COMPONENTS) {
    const amount = notNegative(`Mass of ${component}`, composition[component], '');
    const space = amount / componentProperty(component, 'rho', celsius);
    mass += amount;
    volume += space;
    heat += amount * componentProperty(component, 'cp', celsius);
    conductance += space * componentProperty(component, 'k', celsius);
  }
  if (!(mass > 0)) throw new RangeError('A composition needs at least one component.');
  const densityKgM3 = mass / volume;
  const cpKJKgK = heat / mass;
  const conductivityWMK = conductance / volume;
  return {
    densityKgM3,
    cpKJKgK,
    conductivityWMK,
    diffusivityM2S: conductivityWMK / (densityKgM3 * cpKJKgK * 1000),
  };
}

/** Conductivity of the air and vapour between kernels, W/mK. */
export const GAS_CONDUCTIVITY = 0.027;

/**
 * A heap of kernels by conduction alone: geometric mean k = k_s^(1-e) k_gas^e, heat capacity of the solid
 * share. A floor: moisture moving as vapour carries more (see diffusivity.ts).
 */
export function bulkThermal(kernel: Thermal, porosity: number): Thermal {
  within('Porosity', porosity, 0, 0.9, '');
  const kernelWMK = positive('Conductivity of the kernel', kernel.conductivityWMK, 'W/mK');
  const conductivityWMK = kernelWMK ** (1 - porosity) * GAS_CONDUCTIVITY ** porosity;
  const densityKgM3 = positive('Density of the kernel', kernel.densityKgM3, 'kg/m3') * (1 - porosity);
  positive('Specific heat of the kernel', kernel.cpKJKgK, 'kJ/kgK');
  return {
    densityKgM3,
    cpKJKgK: kernel.cpKJKgK,
    conductivityWMK,
    diffusivityM2S: conductivityWMK / (densityKgM3 * kernel.cpKJKgK * 1000),
  };
}
