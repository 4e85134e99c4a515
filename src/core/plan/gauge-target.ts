/** What the gauge has to show here, how hot that is, and what holds it back from the recipe's temperature. */
import type { Kitchen } from '../kitchen.ts';
import type { Recipe } from '../recipe/recipe.ts';
import { localAtmosphereKPa } from '../science/atmosphere.ts';
import { STANDARD_ATMOSPHERE_KPA } from '../science/constants.ts';
import { boilingC, chamberC, gaugeKPaFor } from '../science/steam.ts';

/** Why the chamber stays cooler than the recipe means. */
export type HeldBack = 'altitude' | 'weight' | 'marked';

export interface GaugeTarget {
  readonly atmosphereKPa: number;
  /** Water boils here at, C. */
  readonly boilC: number;
  /** Temperature the recipe means: its own, or that of its pressure at sea level. */
  readonly wantedC: number;
  /** Gauge pressure here that would give it, kPa; may lie above what the vessel is marked for. */
  readonly neededKPa: number;
  /** Gauge pressure to hold, kPa, and the steam's temperature at it, C. */
  readonly targetKPa: number;
  readonly targetC: number;
  readonly heldBack: HeldBack | null;
}

/** A mark in psi and the same mark in kPa are the same mark. */
const SAME_KPA = 0.1;
const SAME_C = 0.02;

/** Greatest gauge pressure the vessel may be asked for: its mark, and never more than its weight lets stand. */
export const vesselLimitKPa = ({ gauge, workingKPa, markedMaxKPa }: Kitchen): number =>
  gauge === 'weight' ? Math.min(workingKPa, markedMaxKPa) : markedMaxKPa;

/**
 * The gauge target of a recipe in a kitchen. A recipe's pressure is a reading and stays that reading wherever
 * the kitchen is; its temperature becomes the reading that gives it here. Neither ever passes the vessel's mark.
 */
export function gaugeTarget(recipe: Recipe, kitchen: Kitchen): GaugeTarget {
  const atmosphereKPa = localAtmosphereKPa(kitchen);
  const { target } = recipe;
  const wantedC =
    target.by === 'pressure'
      ? chamberC({ gaugeKPa: target.gaugeKPa, atmosphereKPa: STANDARD_ATMOSPHERE_KPA })
      : target.celsius;
  const neededKPa = gaugeKPaFor({ celsius: wantedC, atmosphereKPa });
  const asked = target.by === 'pressure' ? target.gaugeKPa : neededKPa;
  const targetKPa = Math.min(asked, vesselLimitKPa(kitchen));
  const targetC = chamberC({ gaugeKPa: targetKPa, atmosphereKPa });
  return {
    atmosphereKPa,
    boilC: boilingC(atmosphereKPa),
    wantedC,
    neededKPa,
    targetKPa,
    targetC,
    heldBack: heldBack(asked - targetKPa, wantedC - targetC, kitchen),
  };
}

function heldBack(missingKPa: number, missingC: number, { gauge, workingKPa, markedMaxKPa }: Kitchen) {
  if (missingC <= SAME_C) return null;
  if (missingKPa <= SAME_KPA) return 'altitude';
  return gauge === 'weight' && workingKPa < markedMaxKPa ? 'weight' : 'marked';
}
