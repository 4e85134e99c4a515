/** The plan sheet for other programs: inside units (kg, L, kPa, C, s), instants as ISO 8601. */
import { warningsIn } from '../face/sheet-view.ts';
import { shoppingText } from '../core/words/plan-lists.ts';
import type { Planned } from './plan.ts';

/** Plain data; never NaN or infinite. */
export function planJson({ view, says, refused }: Planned) {
  const { plan, timeline, recipe, known } = view;
  const { curves: _curves, ...hold } = plan.hold;
  const iso = (wall: number): string => new Date(wall).toISOString();
  return {
    recipe: recipe.name,
    verdict: refused ? 'no' : plan.verdict,
    says,
    altitudeM: known.kitchen.altitudeM,
    stationKPa: known.kitchen.stationKPa,
    assumed: [...known.assumed],
    grain: plan.grain,
    cooker: { ...plan.fit, loads: plan.numbers.loads, water: plan.water },
    gauge: plan.gauge,
    ventS: plan.numbers.ventS,
    hold,
    shut: {
      pressureLockS: plan.numbers.pressureLockS,
      coolS: plan.numbers.coolS,
      zeroGaugeS: plan.zeroGaugeS,
      centreCoolS: plan.coolThroughS,
    },
    startsAt: iso(timeline.startsAt),
    readyAt: iso(timeline.readyAt),
    endsAt: iso(timeline.endsAt),
    nightMinutes: Math.round(timeline.nightMs / 60_000),
    steps: timeline.stops.map(({ step, load, from, to, waits, stretched }) => ({
      step,
      load,
      from: iso(from),
      to: iso(to),
      waits,
      stretched,
      ...plan.lengths[step],
    })),
    warnings: warningsIn(view),
    shopping: plan.shopping.map(line => ({ ...line, says: shoppingText(line, recipe, known.kitchen) })),
    cost: plan.cost,
  };
}
