/**
 * How long to hold here: the recipe's hold, lengthened where the steam is cooler than the recipe means, and
 * what it is worth at the centre over the band of diffusivities, beside the hold that would give the target.
 */
import type { Kitchen } from '../kitchen.ts';
import { diffusivityFor, heatedBody, type KnownDiffusivity } from '../recipe/body.ts';
import type { Recipe } from '../recipe/recipe.ts';
import type { ComeUp } from '../science/hold.ts';
import { TARGET_F0_MIN } from '../science/lethality.ts';
import { afterHold, type CentreCurve, centreCurve, holdForF0 } from './centre.ts';
import type { GaugeTarget } from './gauge-target.ts';

/** Longer than so many times the recipe's hold is no plan. */
export const MOST_LENGTHENING = 4;
/** Steam cooler than this is no plan: below it the choice of z decides the credit (science notes, section d). */
export const LEAST_CHAMBER_C = 110;
/** What one diffusivity says. */
export interface Estimate {
  readonly diffusivityM2S: number;
  /** Hold that would bring the centre to the target F0, s; null beyond 12 hours. */
  readonly suggestedS: number | null;
  /** At the centre at heat-off, after the hold that is planned. */
  readonly f0Min: number;
  readonly logs: number;
  readonly centreC: number;
}

export interface HoldPlan {
  /** The hold to keep, s, in whole minutes when it was lengthened. */
  readonly holdS: number;
  readonly recipeS: number;
  /** F0 the recipe's hold would give the centre at the temperature it means, min, likely diffusivity. */
  readonly recipeF0Min: number;
  readonly targetF0Min: number;
  readonly source: KnownDiffusivity['source'];
  readonly cautious: Estimate;
  readonly likely: Estimate;
  readonly fast: Estimate;
  /** The centre over time, for the plot. */
  readonly curves: {
    readonly cautious: CentreCurve;
    readonly likely: CentreCurve;
    readonly fast: CentreCurve;
  };
  /** Set when no sensible hold makes up for the cooler steam; then `holdS` is the recipe's. */
  readonly refused: 'too-cool' | 'too-long' | null;
}

export interface HoldQuestion {
  readonly recipe: Recipe;
  readonly kitchen: Kitchen;
  readonly gauge: GaugeTarget;
  readonly comeUp: ComeUp;
  readonly inLoad: number;
}

/** The hold of a plan. RangeError outside the ranges of the models. */
export function holdPlan({ recipe, kitchen, gauge, comeUp, inLoad }: HoldQuestion): HoldPlan {
  const body = heatedBody(recipe.containers, inLoad);
  const { m2S, source } = diffusivityFor(recipe.containers, kitchen);
  const meant = () =>
    centreCurve({
      body,
      diffusivityM2S: m2S.likely,
      comeUp: { ...comeUp, holdC: gauge.wantedC },
      holdS: recipe.holdS,
    });
  const meantF0Min = gauge.heldBack === null ? null : afterHold(meant(), recipe.holdS).f0Min;
  const curveAt = (diffusivityM2S: number, holdS: number) =>
    centreCurve({
      body,
      diffusivityM2S,
      comeUp,
      holdS,
      untilF0Min: Math.max(TARGET_F0_MIN, meantF0Min ?? 0),
    });
  const likelyCurve = curveAt(m2S.likely, recipe.holdS);
  const recipeF0Min = meantF0Min ?? afterHold(likelyCurve, recipe.holdS).f0Min;
  const { holdS, refused } = chosenHold(recipe, gauge, likelyCurve, recipeF0Min);
  const curves = {
    cautious: curveAt(m2S.low, holdS),
    likely: likelyCurve,
    fast: curveAt(m2S.high, holdS),
  };
  const estimate = (curve: CentreCurve, diffusivityM2S: number): Estimate => {
    const { f0Min, logs, centreC } = afterHold(curve, holdS);
    return { diffusivityM2S, suggestedS: holdForF0(curve, TARGET_F0_MIN), f0Min, logs, centreC };
  };
  return {
    holdS,
    recipeS: recipe.holdS,
    recipeF0Min,
    targetF0Min: TARGET_F0_MIN,
    source,
    cautious: estimate(curves.cautious, m2S.low),
    likely: estimate(curves.likely, m2S.likely),
    fast: estimate(curves.fast, m2S.high),
    curves,
    refused,
  };
}

/** The recipe's hold, or the one that gives the centre the same F0 in cooler steam. */
function chosenHold(
  { holdS }: Recipe,
  { heldBack, targetC }: GaugeTarget,
  curve: CentreCurve,
  f0Min: number,
): Pick<HoldPlan, 'holdS' | 'refused'> {
  if (targetC < LEAST_CHAMBER_C) return { holdS, refused: 'too-cool' };
  if (heldBack === null) return { holdS, refused: null };
  const equal = holdForF0(curve, f0Min);
  if (equal === null || equal > MOST_LENGTHENING * holdS) return { holdS, refused: 'too-long' };
  return { holdS: Math.max(holdS, Math.ceil(equal / 60 - 1e-6) * 60), refused: null };
}
