/**
 * Every number of every model, one at a time, is replaced by numbers that are none, that are far too large or
 * small, or of the wrong sign: what comes back is a plain number, a sentence that says why there is no answer,
 * or a RangeError with one. No value here is expected of a model; it may only not be NaN or infinite.
 */
import { describe, expect, it } from 'vitest';
import * as atmosphere from '../../../src/core/science/atmosphere.ts';
import * as bagCooldown from '../../../src/core/science/bag-cooldown.ts';
import * as ball from '../../../src/core/science/ball.ts';
import { bessel } from '../../../src/core/science/bessel.ts';
import * as composition from '../../../src/core/science/composition.ts';
import * as conduction from '../../../src/core/science/conduction.ts';
import * as cooldown from '../../../src/core/science/cooldown.ts';
import * as diffusivity from '../../../src/core/science/diffusivity.ts';
import * as heat from '../../../src/core/science/heat-penetration.ts';
import * as hold from '../../../src/core/science/hold.ts';
import * as hydration from '../../../src/core/science/hydration.ts';
import * as lethality from '../../../src/core/science/lethality.ts';
import * as air from '../../../src/core/science/residual-air.ts';
import * as soak from '../../../src/core/science/soak.ts';
import { GRAIN_SPORE } from '../../../src/core/science/spores.ts';
import * as statistics from '../../../src/core/science/statistics.ts';
import * as steam from '../../../src/core/science/steam.ts';
import * as water from '../../../src/core/science/water.ts';

const WEIRD = [
  Number.NaN,
  Number.POSITIVE_INFINITY,
  Number.NEGATIVE_INFINITY,
  ...[0, -0, -1, 1e-300, 1e300, -1e300, 1e9, -273.15, -300, 374, 400, 0.5, 1, 2, 1e4],
];

const body: conduction.Body = {
  shape: 'brick',
  halfLengthM: 0.09,
  halfWidthM: 0.055,
  halfThicknessM: 0.04,
};
const band = { low: 2e-7, likely: 3e-7, high: 4.5e-7 };
const comeUp = hold.comeUp({ startC: 25, ventC: 100, holdC: 121 });
const cook = { body, diffusivityM2S: 3e-7, comeUp, holdC: 121 };
const { diffusivityM2S: _one, ...cookWithBand } = cook;
const ramp = [
  { seconds: 0, celsius: 100 },
  { seconds: 60, celsius: 121 },
];
const probe = [
  { seconds: 0, celsius: 40 },
  { seconds: 600, celsius: 60 },
  { seconds: 1200, celsius: 75 },
];
const chamber = [
  { seconds: 0, celsius: 121 },
  { seconds: 1500, celsius: 121 },
];
const chamberAir = { gaugeKPa: 103, atmosphereKPa: 95, airLeft: 0.1 };
const free = { freeL: 15, steamGMin: 26, boilsC: 98 };
const z10 = { atC: 121.1, zC: 10 };
const batch = { storedKg: 1, storedMoisture: 0.12, wantedMoisture: 0.48, dryBulkKgM3: 720 };
const soaked = { storedMoisture: 0.12, waterC: 20, seconds: 20_000 };
const newton: cooldown.Cooling = { startC: 120, ambientC: 22, tauS: 8000, law: 'newton' };
const burner = { powerW: 1800, efficiency: 0.74, lossWK: 4.5, ambientC: 22 };
const rye = { proteinPct: 10, fatPct: 2, carbohydratePct: 75, fibrePct: 15, ashPct: 1.6, waterPct: 10 };
const kernel = { densityKgM3: 1168, cpKJKgK: 2.9, conductivityWMK: 0.5, diffusivityM2S: 1.5e-7 };

const centreAfter = (penetration: heat.Penetration, seconds: number, fromC: number, toC: number) => {
  const state = heat.createModes(penetration);
  heat.advance(state, seconds, fromC, toC);
  return heat.centreC(state);
};
/** A call as a model's function and arguments that it answers. */
// biome-ignore lint/suspicious/noExplicitAny: arguments of any kind are what is mangled here.
type Call = readonly [string, (...args: any[]) => unknown, readonly unknown[]];
const CALLS: readonly Call[] = [
  ['saturation pressure', steam.saturationKPa, [100]],
  ['saturation temperature', steam.saturationC, [101]],
  ['slope of saturation', steam.saturationSlopeKPaPerK, [100]],
  ['density of steam', steam.steamKgM3, [100]],
  ['density of water', steam.waterKgM3, [100]],
  ['latent heat', steam.latentHeatKJKg, [100]],
  ['chamber', steam.chamberC, [{ gaugeKPa: 103, atmosphereKPa: 95 }]],
  ['gauge for', steam.gaugeKPaFor, [{ celsius: 121, atmosphereKPa: 95 }]],
  ['atmosphere', atmosphere.atmosphereKPa, [640]],
  ['altitude', atmosphere.altitudeM, [95]],
  ['local atmosphere', atmosphere.localAtmosphereKPa, [{ altitudeM: 640, stationKPa: 95 }]],
  ['air, model A', air.chamberColdAirC, [chamberAir]],
  ['air, model B', air.chamberHeatedAirC, [{ ...chamberAir, closedAtC: 98 }]],
  ['purge', air.freeSpaceAir, [free, 600]],
  ['air in a bag', air.airLeftInBag, [{ celsius: 90, filledAtC: 20, atmosphereKPa: 101 }]],
  ['assumed air', air.assumedAirLeft, [600]],
  ['lethal rate', lethality.lethalRate, [115, z10]],
  ['F of a segment', lethality.segmentF, [{ seconds: 60, fromC: 110, toC: 121 }, z10]],
  ['F of a history', lethality.historyF, [ramp, z10]],
  ['credited F', lethality.creditedF, [{ seconds: 60, fromC: 100, toC: 121 }, 110]],
  ['D', lethality.decimalReductionMin, [GRAIN_SPORE, 121]],
  ['log reduction', lethality.logReduction, [ramp, GRAIN_SPORE]],
  ['survivors', lethality.survivors, [1e4, 5]],
  ['risk', lethality.riskOfSurvivor, [0.1]],
  ['log reduction for a risk', lethality.logReductionFor, [1e4, 1e-3]],
  ['spores in a bag', lethality.sporesInBag, [{ dryKg: 0.6, sporesPerG: 100 }]],
  ['Bessel', bessel, [3.3]],
  ['theta of a slab', conduction.theta, ['slab', { fourier: 0.3, biot: 5, position: 0.5 }]],
  ['theta of a sphere', conduction.theta, ['sphere', { fourier: 0.3, biot: 5 }]],
  ['theta of a body', conduction.centreTheta, [{ body, diffusivityM2S: 3e-7, seconds: 3000, hOverK: 500 }]],
  ['centre', centreAfter, [{ body, diffusivityM2S: 3e-7, startC: 25, hOverK: 500 }, 600, 25, 100]],
  ['f_h and j', ball.ballLine, [body, 3e-7, 500]],
  ['diffusivity from f_h', ball.diffusivityFromFh, [body, 2900]],
  ['f_h from two', ball.fhFromTwo, [{ seconds: 0, celsius: 50 }, { seconds: 1000, celsius: 80 }, 121]],
  ['process time', ball.processS, [{ fhS: 2900, j: 2 }, 90, 1]],
  ['f_h of a curve', ball.fitBall, [probe, 121]],
  ['diffusivity of a curve', ball.fitDiffusivity, [body, { probe, chamber }]],
  ['come-up', hold.comeUp, [{ startC: 25, ventC: 100, holdC: 121, heatS: 1500, ventS: 600, climbS: 480 }]],
  ['at heat-off', hold.atHeatOff, [cook, 5400]],
  ['hold for F', hold.holdFor, [cook, { minutes: 15 }]],
  ['hold band', hold.holdBand, [cookWithBand, band, { minutes: 15 }]],
  ['outcome band', hold.outcomeBand, [cookWithBand, band, 5400, GRAIN_SPORE]],
  ['heat capacity', cooldown.heatCapacityKJK, [{ potKg: 5.5, potCpKJKgK: 0.9, waterKg: 2.5, loadKg: 4 }]],
  ['cooling', cooldown.coolingC, [newton, 600]],
  ['time to cool', cooldown.coolingS, [newton, 60]],
  ['vessel', cooldown.vesselCoolingS, [{ startC: 120, ambientC: 22, capacityKJK: 29 }, 98]],
  ['two readings', cooldown.fitCooling, [{ firstC: 120, secondC: 115, secondsApart: 600, ambientC: 22 }]],
  ['bag in air', bagCooldown.bagInAirS, [{ body, startC: 100, ambientC: 22, targetC: 30 }]],
  [
    'bag in the pot',
    bagCooldown.bagInPotS,
    [
      { body, startC: 120, ambientC: 22, targetC: 30 },
      { low: newton, likely: newton, high: newton },
    ],
  ],
  ['mass at a moisture', hydration.massAtMoistureKg, [{ massKg: 1, from: 0.12, to: 0.48 }]],
  ['by weighing', hydration.moistureByWeighing, [{ storedKg: 1, storedMoisture: 0.12, drainedKg: 1.7 }]],
  ['with culture', hydration.moistureWithWater, [{ massKg: 1, moisture: 0.48, waterKg: 0.05 }]],
  ['pot level', hydration.potLevel, [{ ...batch, waterL: 3, potL: 10 }]],
  ['height in a vessel', hydration.levelHeightM, [3, 0.3]],
  ['Peleg', soak.pelegMoisture, ['sorghum', soaked]],
  ['Becker', soak.beckerMoisture, [soaked]],
  ['Wilson', statistics.wilson, [3, 10]],
  ['rule of three', statistics.ruleOfThree, [10]],
  ['exact bound', statistics.exactUpper, [1, 10, 0.95]],
  ['loss', statistics.batchLoss, [{ bags: 6, bagKg: 1, perBag: 0.05, perKg: 0.02 }]],
  ['steam rate', water.steamRateGMin, [{ ...burner, celsius: 100, sensibleW: 10 }]],
  [
    'water budget',
    water.waterBudget,
    [{ ventS: 600, holdS: 5400, ventGMin: { low: 20, likely: 25, high: 30 }, makersMinimumL: 2 }],
  ],
  ['boil dry', water.boilDryS, [2, { low: 4, likely: 6, high: 25 }]],
  ['heat up', water.heatUpS, [{ ...burner, capacityKJK: 30, fromC: 20, toC: 98 }]],
  ['depth', water.waterForDepthL, [0.05, 0.3]],
  ['a component', composition.componentProperty, ['water', 'k', 50]],
  [
    'thermal properties',
    composition.thermalProperties,
    [{ water: 48, protein: 5, fat: 1, carb: 38, fibre: 7, ash: 1 }, 100],
  ],
  ['at a moisture', composition.atMoisture, [rye, 0.48]],
  ['a heap', composition.bulkThermal, [kernel, 0.4]],
  ['conductivity', diffusivity.effectiveConductivity, [3e-7]],
  ['touching', diffusivity.mergeTouching, [body, { alongLength: 1, alongWidth: 2, alongThickness: 2 }]],
];

type Path = readonly string[];
const isGroup = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null;

/** Where the numbers stand in an argument list. */
const numbersIn = (value: unknown, path: Path = []): readonly Path[] =>
  typeof value === 'number'
    ? [path]
    : isGroup(value)
      ? Object.entries(value).flatMap(([key, part]) => numbersIn(part, [...path, key]))
      : [];

function withNumber(args: readonly unknown[], path: Path, number: number): unknown[] {
  const copy: unknown[] = structuredClone([...args]);
  let group: unknown = copy;
  for (const key of path.slice(0, -1)) if (isGroup(group)) group = group[key];
  if (isGroup(group)) group[path.at(-1) ?? ''] = number;
  return copy;
}

/** The first number in an answer that is none. */
function noNumber(answer: unknown): string | null {
  if (typeof answer === 'number') return Number.isFinite(answer) ? null : String(answer);
  if (!isGroup(answer)) return null;
  return (
    Object.values(answer)
      .map(noNumber)
      .find(found => found !== null) ?? null
  );
}

describe('outside of its range a model says so', () => {
  it.each(CALLS.map(call => [call[0], call] as const))('%s', (_name, [, model, args]) => {
    expect(noNumber(model(...structuredClone([...args])))).toBeNull();
    for (const path of numbersIn(args)) {
      for (const number of WEIRD) {
        const where = `${path.join('.')} = ${number}`;
        try {
          expect(noNumber(model(...withNumber(args, path, number))), where).toBeNull();
        } catch (problem) {
          if (!(problem instanceof RangeError)) throw problem;
          expect(problem.message, where).toMatch(/^[A-Za-z].* .*\.$/s);
        }
      }
    }
  });
});
