/** Of what a plan warns. */
import type { Kitchen } from '../kitchen.ts';
import { containerVolumeL } from '../recipe/body.ts';
import { altitudeM, atmosphereKPa } from '../science/atmosphere.ts';
import { GRAIN_PROPERTIES } from '../science/grains.ts';
import { moistureWithWater } from '../science/hydration.ts';
import { vesselLimitKPa } from './gauge-target.ts';
import { type Estimate, type HoldPlan, LEAST_CHAMBER_C, MOST_LENGTHENING } from './hold-plan.ts';
import type { PlanParts } from './plan.ts';
import type { Warning, WarningCode, Weight } from './warning.ts';

const warning = (code: WarningCode, weight: Weight, values: Record<string, number> = {}): Warning => ({
  code,
  weight,
  values,
});

/** Above this, the science notes say plainly that 15 psi is far from 121 C. */
const HIGH_M = 2500;
const FULL_VENT_S = 600;
/** Bulk density of hydrated grain that makes fill and size agree, kg/m3: the band and a little more either way. */
const ODD_LOW = 450;
const ODD_HIGH = 900;
/** Volume and inner sides of one cooker may differ so much: domed lids, rounded edges (estimate). */
const ODD_VOLUME = 1.35;
/** A load for two people (general manual-handling advice, MEMORY). */
const HEAVY_KG = 16;
/** Culture that lifts the moisture by more than this makes wet bottoms (estimate). */
const MOST_WETTING = 0.02;
/**
 * The least that any process for low-acid goods counts on (science notes d, MEMORY): common practice gives the
 * cautious estimate more (hold_anchors.csv), and what is below is no footnote.
 */
const LEAST_F0_MIN = 3;
/** Emptied pot and empty cooker on the hob weigh what the kitchen says; grain and water come on top. */
export const hobLoadKg = (kitchen: Kitchen, waterL: number, loadKg: number): number =>
  kitchen.cookerMassKg + waterL + loadKg;

/** All warnings of a plan, the weightiest first. */
export function warningsOf(parts: PlanParts): readonly Warning[] {
  const found = [
    ...cautiousWarnings(parts),
    ...vesselWarnings(parts),
    ...holdWarnings(parts),
    ...grainWarnings(parts),
    ...careWarnings(parts),
    ...assumedWarnings(parts),
  ];
  const order: readonly Weight[] = ['no', 'watch', 'note'];
  return order.flatMap(weight => found.filter(one => one.weight === weight));
}

/** Minutes that the hold would need on top for the target F0, s; 0 stands for "no hold within 12 hours". */
function moreHold({ holdS, likely, cautious }: HoldPlan): Record<string, number> {
  const more = ({ suggestedS }: Estimate): number =>
    suggestedS === null ? 0 : Math.ceil(Math.max(0, suggestedS - holdS) / 60) * 60;
  return { moreS: more(likely), cautiousMoreS: more(cautious) };
}

/** The likely estimate has its target, the cautious one has not: the first thing to know of a hold. */
function cautiousWarnings(parts: PlanParts): Warning[] {
  const { hold } = parts;
  const { cautious, likely, targetF0Min, refused, holdS, source } = hold;
  if (refused !== null || likely.f0Min < targetF0Min || cautious.f0Min >= targetF0Min) return [];
  return [
    warning('hold-cautious', cautious.f0Min < LEAST_F0_MIN ? 'watch' : 'note', {
      holdS,
      wantedS: cautious.suggestedS === null ? 0 : Math.ceil(cautious.suggestedS / 60) * 60,
      f0Min: cautious.f0Min,
      targetF0Min,
      yours: source === 'yours' ? 1 : 0,
      ...moreHold(hold),
      lengthened: holdS > hold.recipeS ? 1 : 0,
      ...coolerReasons(parts),
    }),
  ];
}

function vesselWarnings(parts: PlanParts): Warning[] {
  const { kitchen, fit, water, numbers, burnerFails } = parts;
  const found: Warning[] = [];
  if (burnerFails !== null) {
    found.push(warning('burner-weak', 'no', { powerW: kitchen.burnerW, targetC: numbers.targetC }));
  }
  if (fit.perLoad === 0) {
    found.push(
      warning('no-fit', 'no', {
        freeHeightM: fit.freeHeightM,
        diameterM: kitchen.cookerInnerDiameterM,
        byWidth: fit.stops === 'width' ? 1 : 0,
        byVolume: fit.stops === 'volume' ? 1 : 0,
        cookerL: kitchen.cookerL,
      }),
    );
  } else if (numbers.loads.length > 1) {
    found.push(
      warning('more-loads', 'watch', {
        loads: numbers.loads.length,
        perLoad: fit.perLoad,
        eachS: parts.loadS,
      }),
    );
  }
  const hobKg = hobLoadKg(kitchen, water.pourL, parts.loadKg);
  if (kitchen.hobLimitKg !== null && hobKg > kitchen.hobLimitKg) {
    found.push(warning('hob-limit', 'no', { hobKg, limitKg: kitchen.hobLimitKg }));
  } else if (hobKg > HEAVY_KG) {
    found.push(warning('heavy', 'note', { hobKg, askHob: kitchen.hobLimitKg === null ? 1 : 0 }));
  }
  if (water.beyondL > 0) {
    found.push(warning('water-asked', 'note', { askedL: water.pourL + water.beyondL, pourL: water.pourL }));
  }
  if (water.pourL > kitchen.cookerL / 2) {
    found.push(warning('water-too-high', 'no', { waterL: water.pourL, cookerL: kitchen.cookerL }));
  }
  const sidesL = (Math.PI / 4) * kitchen.cookerInnerDiameterM ** 2 * kitchen.cookerInnerHeightM * 1000;
  if (Math.abs(Math.log(sidesL / kitchen.cookerL)) > Math.log(ODD_VOLUME)) {
    found.push(warning('cooker-odd', 'watch', { sidesL, cookerL: kitchen.cookerL }));
  }
  return found;
}

/** What keeps the steam cooler than the recipe means, and by how much the hold grows. */
function coolerReasons({ kitchen, gauge, hold }: PlanParts): Record<string, number> {
  return {
    targetC: gauge.targetC,
    targetKPa: gauge.targetKPa,
    wantedC: gauge.wantedC,
    neededKPa: gauge.neededKPa,
    limitKPa: vesselLimitKPa(kitchen),
    markedMaxKPa: kitchen.markedMaxKPa,
    leastC: LEAST_CHAMBER_C,
    times: MOST_LENGTHENING,
    recipeS: hold.recipeS,
    holdS: hold.holdS,
    byAltitude: gauge.heldBack === 'altitude' ? 1 : 0,
    byWeight: gauge.heldBack === 'weight' ? 1 : 0,
    byVessel: gauge.heldBack === 'weight' || gauge.heldBack === 'marked' ? 1 : 0,
  };
}

function holdWarnings(parts: PlanParts): Warning[] {
  const { recipe, gauge, hold } = parts;
  const found: Warning[] = [];
  const { containers } = recipe;
  const isShort = hold.likely.f0Min < hold.targetF0Min;
  const reasons = coolerReasons(parts);
  if (hold.refused !== null) found.push(warning(hold.refused, 'no', reasons));
  // Where the cautious estimate asks for more, one warning tells both.
  else if (hold.holdS > hold.recipeS && (isShort || hold.cautious.f0Min >= hold.targetF0Min))
    found.push(warning('hold-lengthened', 'note', { ...reasons, short: isShort ? 1 : 0 }));
  if (hold.refused === null && isShort) {
    found.push(
      warning('hold-short', 'watch', {
        f0Min: hold.likely.f0Min,
        targetF0Min: hold.targetF0Min,
        ...moreHold(hold),
      }),
    );
  }
  if (gauge.atmosphereKPa < atmosphereKPa(HIGH_M) && hold.refused === null) {
    const height = Math.round(altitudeM(gauge.atmosphereKPa));
    found.push(warning('high-altitude', 'watch', { altitudeM: height, targetC: gauge.targetC }));
  }
  if (containers.touching && containers.count > 1) found.push(warning('touching', 'watch'));
  if (recipe.ventS < FULL_VENT_S) found.push(warning('short-vent', 'watch', { ventS: recipe.ventS }));
  return found;
}

function grainWarnings({ recipe, kitchen, grain }: PlanParts): Warning[] {
  const { containers, wantedMoisture, culture } = recipe;
  const found: Warning[] = [];
  if (containers.fillKg > containers.mostKg + 1e-9) {
    found.push(warning('over-filter', 'no', { fillKg: containers.fillKg, mostKg: containers.mostKg }));
  }
  const densityKgM3 = (containers.fillKg / containerVolumeL(containers.size)) * 1000;
  if (densityKgM3 < ODD_LOW || densityKgM3 > ODD_HIGH) {
    found.push(
      warning('fill-odd', 'watch', {
        fillKg: containers.fillKg,
        volumeL: containerVolumeL(containers.size),
        likelyKg: (containerVolumeL(containers.size) * 700) / 1000,
      }),
    );
  }
  if (grain.pot.fillings > 1) {
    found.push(
      warning('pot-fillings', 'note', {
        fillings: grain.pot.fillings,
        potL: kitchen.potL,
        wholeL: grain.pot.volumeL * grain.pot.fillings,
        dryKg: grain.pot.dryKg,
        waterL: grain.pot.waterL,
      }),
    );
  }
  const usual = GRAIN_PROPERTIES[recipe.grain].wantedMoisture;
  if (wantedMoisture < usual.low || wantedMoisture > usual.high) {
    found.push(warning('moisture-odd', 'watch', { wantedMoisture, low: usual.low, high: usual.high }));
  }
  if (culture.form !== 'grain spawn') {
    const waterKg = culture.perContainer / 1000;
    const after = moistureWithWater({ massKg: containers.fillKg, moisture: wantedMoisture, waterKg });
    if (after - wantedMoisture > MOST_WETTING) {
      found.push(warning('culture-wet', 'watch', { before: wantedMoisture, after }));
    }
  }
  return found;
}

/** True of many a good plan: said last. */
function careWarnings({ recipe, numbers, water }: PlanParts): Warning[] {
  const found: Warning[] = [];
  if (water.dryS.low < numbers.holdS) {
    found.push(warning('boils-dry', 'note', { fullS: water.dryS.low, gentleS: water.dryS.likely }));
  }
  if (numbers.pressureLockS > recipe.coolS) {
    found.push(warning('lock-longer', 'note', { lockS: numbers.pressureLockS, coolS: recipe.coolS }));
  }
  return found;
}

/** Nobody said how high it is, what the cooker is marked or what water it wants: not begun unseen. */
function assumedWarnings({ kitchen, assumed }: PlanParts): Warning[] {
  const altitude = assumed.has('altitudeM') && kitchen.stationKPa === null ? 1 : 0;
  const markedMax = assumed.has('markedMaxKPa') ? 1 : 0;
  const minimumWater = assumed.has('minimumWaterL') ? 1 : 0;
  if (altitude + markedMax + minimumWater === 0) return [];
  const { altitudeM: heightM, markedMaxKPa, minimumWaterL } = kitchen;
  return [
    warning('vessel-assumed', 'watch', {
      altitude,
      markedMax,
      minimumWater,
      altitudeM: heightM,
      markedMaxKPa,
      minimumWaterL,
    }),
  ];
}
