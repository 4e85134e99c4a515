/**
 * The hold as a ruler: how long it is held, against the band of holds that would be enough. The filled part
 * is the hold; the shaded part runs from the fast to the cautious estimate, with an upright at the likely one.
 */
import { formatDuration } from '../core/quantity-format.ts';
import type { HoldPlan } from '../core/plan/hold-plan.ts';
import { type Drawing, type Ink, type Row, type Span, span } from './spans.ts';

/** Between two labels. */
const GAP = 2;

export interface RulerOptions {
  readonly width: number;
  readonly ascii: boolean;
}

/** Two rows of exactly `width` cells (at least 24): the ruler, and the lengths under it. */
export function holdRuler(hold: HoldPlan, { width, ascii }: RulerOptions): Drawing {
  const { holdS, fast, likely, cautious } = hold;
  const known = [fast, likely, cautious].map(({ suggestedS }) => suggestedS);
  const longest = Math.max(holdS, ...known.map(seconds => seconds ?? holdS * 1.5)) * 1.04;
  const at = (seconds: number | null): number =>
    Math.min(width - 1, Math.floor(((seconds ?? longest) / longest) * width));
  const [from, middle, to] = [at(fast.suggestedS), at(likely.suggestedS), at(cautious.suggestedS)];
  const end = at(holdS);
  const enough = likely.suggestedS !== null && holdS >= likely.suggestedS;
  const ink: Ink = enough ? 'good' : 'watch';
  const signs = ascii
    ? { held: '=', band: ':', bare: '-', likely: '|', end: '>' }
    : { held: '━', band: '░', bare: '─', likely: '┃', end: '▶' };
  const row = Array.from({ length: width }, (_, column): Span => {
    if (column === middle && likely.suggestedS !== null) return span(signs.likely, 'strong');
    if (column === end) return span(signs.end, ink);
    if (column < end) return span(signs.held, ink);
    const inBand = column >= from && column <= to;
    return span(inBand ? signs.band : signs.bare, inBand ? 'plain' : 'faint');
  });
  return [row, underneath(hold, width, at)];
}

/** Lengths under their places, moved aside where they would touch; the outer ones go first when all do not fit. */
function underneath(
  { holdS, fast, likely, cautious, source }: HoldPlan,
  width: number,
  at: (seconds: number | null) => number,
): Row {
  const minutes = (seconds: number) => formatDuration(Math.round(seconds / 60) * 60);
  const texts = [
    { seconds: holdS, name: 'held', ink: 'strong', worth: 3 },
    { seconds: likely.suggestedS, name: source === 'yours' ? 'yours' : 'likely', ink: 'plain', worth: 2 },
    { seconds: cautious.suggestedS, name: 'cautious', ink: 'faint', worth: 1 },
    { seconds: fast.suggestedS, name: 'fast', ink: 'faint', worth: 0 },
  ] as const;
  const known = texts.flatMap(({ seconds, name, ink, worth }) =>
    seconds === null ? [] : [{ at: at(seconds), text: `${name} ${minutes(seconds)}`, ink, worth }],
  );
  while (known.reduce((sum, { text }) => sum + text.length + GAP, -GAP) > width) {
    const least = Math.min(...known.map(({ worth }) => worth));
    known.splice(
      known.findIndex(({ worth }) => worth === least),
      1,
    );
  }
  known.sort((a, b) => a.at - b.at);
  const starts: number[] = [];
  known.forEach(({ at: place, text }, index) => {
    const before = known[index - 1];
    const free = before === undefined ? 0 : (starts[index - 1] ?? 0) + before.text.length + GAP;
    starts.push(Math.max(free, place - Math.floor(text.length / 2)));
  });
  let limit = width;
  for (let index = known.length - 1; index >= 0; index -= 1) {
    const length = known[index]?.text.length ?? 0;
    starts[index] = Math.min(starts[index] ?? 0, limit - length);
    limit = (starts[index] ?? 0) - GAP;
  }
  const row: Span[] = [];
  let column = 0;
  known.forEach(({ text, ink }, index) => {
    const start = starts[index] ?? 0;
    row.push(span(' '.repeat(Math.max(0, start - column))), span(text, ink));
    column = start + text.length;
  });
  return [...row, span(' '.repeat(Math.max(0, width - column)))];
}
