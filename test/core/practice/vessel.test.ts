import { describe, expect, it } from 'vitest';
import { loadKJ, meanC, SLOW_S } from '../../../src/core/practice/load.ts';
import { airShare, gaugeKPa, isDry, latentKJKg, type Vessel } from '../../../src/core/practice/vessel.ts';
import { energyError, stepVessel } from '../../../src/core/practice/vessel-step.ts';
import { freeSpaceAir } from '../../../src/core/science/residual-air.ts';
import { latentHeatKJKg, saturationC } from '../../../src/core/science/steam.ts';
import { heatUpS } from '../../../src/core/science/water.ts';
import { bags, vessel } from '../../help/practice-kit.ts';
import { number, reference } from '../science/reference.ts';

const steps = (
  cooker: Vessel,
  seconds: number,
  watts: number,
  load = null as ReturnType<typeof bags> | null,
) => {
  for (let n = 0; n < seconds; n += 1) stepVessel(cooker, load, watts);
};

describe('conservation', () => {
  it('keeps energy and mass at every step of heating, venting, climbing, boiling dry and cooling', () => {
    const load = bags(6);
    const cooker = vessel(
      { bleedM2: 1e-7, inM2: 2e-9, liftKPa: 130, roomL: 12 },
      { waterKg: 1.2, bagGasL: 4 },
    );
    const startKJ = cooker.energyKJ + loadKJ(load);
    const waterKg = cooker.waterKg;
    const airKg = cooker.airKg + cooker.bagAirKg;
    let worstKJ = 0;
    let worstKg = 0;
    const seen = { hot: false, dry: false, vacuum: false };
    for (let t = 0; t < 12 * 3600; t += 1) {
      if (t === 4000) cooker.open = false;
      stepVessel(cooker, load, t < 4.5 * 3600 ? 1300 : 0);
      const { waterOut, airOut, airIn } = cooker.ledger;
      worstKJ = Math.max(worstKJ, Math.abs(energyError(cooker, load, startKJ)));
      worstKg = Math.max(worstKg, Math.abs(cooker.waterKg + waterOut - waterKg));
      // Air of the bags enters the chamber by the ledger's way in.
      worstKg = Math.max(worstKg, Math.abs(cooker.airKg + airOut - airIn - (airKg - cooker.coldBagAirKg)));
      seen.hot ||= gaugeKPa(cooker) > 100;
      seen.dry ||= isDry(cooker);
      seen.vacuum ||= gaugeKPa(cooker) < -20;
    }
    expect(seen).toEqual({ hot: true, dry: true, vacuum: true });
    // The error the module states, and rounding over 43 200 sums of thousands of kJ.
    expect(worstKJ).toBeLessThan(2e-6);
    expect(worstKg).toBeLessThan(1e-10);
  });

  it('keeps both at every slow step of a night, and ends within 0.1 K of steps of a second', () => {
    const night = (slow: boolean) => {
      const load = bags(6, 85);
      const cooker = vessel({ bleedM2: 3e-8, inM2: 2e-9 }, { celsius: 85 });
      cooker.open = false;
      const startKJ = cooker.energyKJ + loadKJ(load);
      const startKg = cooker.airKg;
      for (let t = 0; t < 9 * 3600; t += slow ? SLOW_S : 1) {
        stepVessel(cooker, load, 0, slow);
        const { airIn, airOut } = cooker.ledger;
        if (!slow) continue;
        expect(Math.abs(energyError(cooker, load, startKJ))).toBeLessThan(2e-6);
        expect(Math.abs(cooker.airKg + airOut - airIn - startKg)).toBeLessThan(1e-12);
      }
      return { celsius: cooker.celsius, mean: meanC(load), gauge: gaugeKPa(cooker) };
    };
    const [fine, coarse] = [night(false), night(true)];
    expect(fine.celsius).toBeLessThan(35);
    expect(Math.abs(coarse.celsius - fine.celsius)).toBeLessThan(0.1);
    expect(Math.abs(coarse.mean - fine.mean)).toBeLessThan(0.1);
    expect(Math.abs(coarse.gauge - fine.gauge)).toBeLessThan(0.5);
  });

  it('uses a latent heat within 0.03 % of the steam model from 95 to 130 C, 0.2 % from 20 C', () => {
    for (let t = 20; t <= 130; t += 1) {
      const apart = Math.abs(latentKJKg(t) / latentHeatKJKg(t) - 1);
      expect(apart, `${t} C`).toBeLessThan(t >= 95 ? 3e-4 : 2e-3);
    }
  });
});

describe('against the science notes', () => {
  // Section g, COMPUTED: 1332 W entering, UA 4.5, 22 C: 26.1 g/min while venting.
  it('gives off 26.1 g/min of steam at the open valve with 1332 W entering', () => {
    const cooker = vessel({ lossWK: 3.5 / (78 / 99) ** 0.25 });
    steps(cooker, 3600, 1332);
    expect(Math.abs(cooker.celsius - 100)).toBeLessThan(0.5);
    expect(Math.abs(cooker.steamGS * 60 - 26.1)).toBeLessThan(0.3);
  });

  // Section g, COMPUTED: 650 W entering at 121 C, UA 4.5 and 22 C: 5.58 g/min, held by a weight.
  it('uses 5.58 g/min in a hold under a weight with 650 W entering', () => {
    const cooker = vessel({ liftKPa: 102.5 });
    steps(cooker, 1500, 1332);
    cooker.open = false;
    steps(cooker, 900, 1332);
    steps(cooker, 3600, 650);
    expect(Math.abs(cooker.celsius - 121)).toBeLessThan(0.5);
    expect(Math.abs(cooker.steamGS * 60 - 5.58)).toBeLessThan(0.15);
  });

  it('climbs from boiling to 120 C in the time of the lumped pot, and of the steam that fills it', () => {
    const cooker = vessel();
    steps(cooker, 3600, 1332);
    cooker.open = false;
    const fromC = cooker.celsius;
    let seconds = 0;
    for (; cooker.celsius < 120; seconds += 1) stepVessel(cooker, null, 1332);
    // 19 L of room hold 10 g more steam at 120 C than at 100 C (saturation.csv), which costs 23 kJ over 20 K.
    const capacityKJK = 5.5 * 0.9 + cooker.liquidKg * 4.22 + 23 / (120 - fromC);
    const heat = { capacityKJK, fromC, toC: 120, powerW: 1332, efficiency: 1, ambientC: 22 };
    const expected = heatUpS({ ...heat, lossWK: 4.4 });
    expect(Math.abs(seconds / Number(expected) - 1)).toBeLessThan(0.02);
  });

  // cooldown_reference.csv, COMPUTED: one lumped body of 29.14 kJ/K, natural convection from 120.955 C.
  it('cools down along the reference, within 2 K and 3 min to zero gauge', () => {
    const cooker = vessel({ metalKJK: 5.5 * 0.9 + 4.4 * 3.1 }, { waterKg: 2.8 });
    steps(cooker, 2700, 1332);
    cooker.open = false;
    while (cooker.celsius < 120.955) stepVessel(cooker, null, 1332);
    const filled = cooker.liquidKg;
    let zeroS = Number.NaN;
    let worst = 0;
    const rows = reference('cooldown_reference');
    for (let second = 0; second <= 600 * 60; second += 1) {
      if (second % 600 === 0) {
        const row = rows.find(one => number(one, 'time_min') === second / 60);
        if (row) worst = Math.max(worst, Math.abs(cooker.celsius - number(row, 'T_natural_C')));
      }
      if (Number.isNaN(zeroS) && gaugeKPa(cooker) <= 0) zeroS = second;
      stepVessel(cooker, null, 0);
    }
    expect(Math.abs(filled - 2.5)).toBeLessThan(0.15);
    expect(Math.abs(zeroS / 60 - 34.07)).toBeLessThan(3);
    expect(worst).toBeLessThan(2.5);
    expect(gaugeKPa(cooker)).toBeLessThan(-70);
  });

  // Section c, COMPUTED: all the air shut in cold at 20 C, 15 psi at sea level: 92.9 C. The notes fill it with dry
  // air; here the room's air is damp, 2.3 % less of it, which is worth 0.9 K.
  it('is near 92.9 C at 15 psi when it was shut cold with all its air', () => {
    const cooker = vessel({ ambientC: 20 }, { celsius: 20 });
    cooker.open = false;
    while (gaugeKPa(cooker) < 103.42) stepVessel(cooker, null, 1332);
    expect(Math.abs(cooker.celsius - 92.9)).toBeLessThan(1);
    expect(airShare(cooker)).toBeGreaterThan(0.5);
  });

  it('purges its free space as a perfectly mixed one does', () => {
    const cooker = vessel();
    steps(cooker, 3600, 1332);
    const steamGMin = cooker.steamGS * 60;
    const freeL = 21 - cooker.liquidKg / 0.958;
    // A tenth of the gas is turned into air by hand, which is then followed out.
    cooker.airKg = 0.1 * cooker.steamKg;
    steps(cooker, 20, 1332);
    const before = cooker.airKg;
    steps(cooker, 60, 1332);
    const left = freeSpaceAir({ freeL, steamGMin, boilsC: saturationC(101.325) }, 60);
    expect(Math.abs(cooker.airKg / before - left)).toBeLessThan(0.03);
  });
});

describe('what a cooker does', () => {
  it('climbs behind a blocked pipe although the valve is open', () => {
    const cooker = vessel({ ventM2: 2e-7 });
    steps(cooker, 5400, 1332);
    expect(gaugeKPa(cooker)).toBeGreaterThan(30);
  });
  it('never climbs with a leak that passes more than the burner makes', () => {
    const cooker = vessel({ leakM2: 1.3e-6 });
    steps(cooker, 1800, 1000);
    cooker.open = false;
    steps(cooker, 3600, 1000);
    expect(gaugeKPa(cooker)).toBeLessThan(60);
  });
  it('gets far hotter than its steam once it is dry', () => {
    const cooker = vessel({ bleedM2: 3e-7 }, { waterKg: 0.15 });
    steps(cooker, 5400, 1000);
    expect(isDry(cooker)).toBe(true);
    expect(cooker.celsius).toBeGreaterThan(140);
  });
  it('heats a load with exactly the heat that its steam gives up', () => {
    const load = bags(6);
    const cooker = vessel({ roomL: 12 });
    const before = loadKJ(load);
    steps(cooker, 3600, 1332, load);
    expect(loadKJ(load) - before).toBeCloseTo(cooker.ledger.load, 6);
    expect(meanC(load)).toBeGreaterThan(70);
  });
});
