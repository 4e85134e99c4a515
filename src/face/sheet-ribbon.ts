/**
 * The batch as a ribbon of time: full where a person is needed, a line where the batch waits by itself, and
 * dotted where that wait is night. Work at night has its own sign.
 */
import { nightMs } from '../core/plan/quiet.ts';
import type { Timeline } from '../core/plan/timeline.ts';
import { HOUR, type WallTime } from '../core/time.ts';
import { type Drawing, type Ink, type Span, span } from './spans.ts';

export interface RibbonOptions {
  readonly width: number;
  readonly ascii: boolean;
  /** Local hour and minute as text, and the minute of the day. */
  readonly clock: (wall: WallTime) => string;
  readonly minuteOfDay: (wall: WallTime) => number;
}

const SIGNS = {
  work: ['█', '#'],
  nightWork: ['▓', '!'],
  wait: ['─', '-'],
  night: ['·', '.'],
} as const;
type Kind = keyof typeof SIGNS;
const INKS: Readonly<Record<Kind, Ink>> = {
  work: 'accent',
  nightWork: 'watch',
  wait: 'plain',
  night: 'faint',
};

function kindAt(timeline: Timeline, from: WallTime, to: WallTime): Kind {
  const works = timeline.stops.filter(stop => !stop.waits && stop.from < to && stop.to > from);
  if (works.length > 0) {
    const atNight = works.some(
      stop => nightMs({ from: Math.max(from, stop.from), to: Math.min(to, stop.to) }, timeline.nights) > 0,
    );
    return atNight ? 'nightWork' : 'work';
  }
  return nightMs({ from, to }, timeline.nights) > (to - from) / 2 ? 'night' : 'wait';
}

/** Two rows of exactly `width` cells: the ribbon, and hours under it. */
export function timeRibbon(timeline: Timeline, options: RibbonOptions): Drawing {
  const { width, ascii, clock, minuteOfDay } = options;
  const { startsAt } = timeline;
  const span0 = Math.max(HOUR, timeline.endsAt - startsAt);
  const at = (column: number): WallTime => startsAt + (span0 * column) / width;
  const row = Array.from({ length: width }, (_, column): Span => {
    const kind = kindAt(timeline, at(column), at(column + 1));
    return span(SIGNS[kind][ascii ? 1 : 0], INKS[kind]);
  });
  // Quarters of a day, or finer where there is room for them.
  const every = span0 / width > HOUR / 2 ? 12 : span0 / width > HOUR / 6 ? 6 : 3;
  const labels: string[] = Array.from({ length: width }, () => ' ');
  const firstMinute = minuteOfDay(startsAt);
  const toHour = (every * 60 - (firstMinute % (every * 60))) % (every * 60);
  for (let hour = 0; ; hour += every) {
    const wall = startsAt + toHour * 60_000 + hour * HOUR;
    const column = Math.floor(((wall - startsAt) / span0) * width);
    if (column > width - 5) break;
    [...clock(wall)].forEach((text, index) => {
      labels[column + index] = text;
    });
  }
  return [row, [span(labels.join(''), 'faint')]];
}
