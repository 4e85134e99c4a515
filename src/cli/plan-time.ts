/** Times as people type them, `18:30` or a date with a time, read by the computer's own time zone. */
import { HOUR, MINUTE, type WallTime } from '../core/time.ts';
import { atMost, visible } from '../core/text.ts';
import { EXIT, GrowerError } from '../shell/failure.ts';

export type SaidTime =
  /** A time of day: the next one counts, or a later one where the next cannot be reached. */
  | { readonly kind: 'clock'; readonly hours: number; readonly minutes: number }
  | { readonly kind: 'instant'; readonly at: WallTime };

const CLOCK = /^([01]?\d|2[0-3]):([0-5]\d)$/;
const DATED =
  /^(\d{4})-(\d{2})-(\d{2})[T ]([01]\d|2[0-3]):([0-5]\d)(?::([0-5]\d)(?:\.\d{1,3})?)?(Z|[+-]\d{2}:?\d{2})?$/i;

const refuse = (option: string, text: string, why: string): GrowerError =>
  new GrowerError(`--${option}: "${visible(atMost(text, 40))}" ${why}.`, {
    tryThis: ['Write 18:30 for the next one, or 2026-11-26T18:30 for a certain day (24-hour clock).'],
    exitCode: EXIT.usage,
  });

/** Reads the time of an option. GrowerError with one sentence when it is none, or may mean two instants. */
export function readTime(option: string, text: string): SaidTime {
  const plain = text.trim();
  const clock = CLOCK.exec(plain);
  if (clock) return { kind: 'clock', hours: Number(clock[1]), minutes: Number(clock[2]) };
  const dated = DATED.exec(plain);
  if (!dated) {
    const american = /[ap]\.?m\.?$/i.test(plain);
    throw refuse(option, text, american ? 'is not on the 24-hour clock' : 'is no time this program can read');
  }
  const [, year, month, day, hours, minutes, seconds = '0', zone] = dated;
  const numbers = [year, month, day, hours, minutes, seconds].map(Number);
  const [y = 0, m = 0, d = 0, h = 0, min = 0, s = 0] = numbers;
  if (new Date(Date.UTC(y, m - 1, d)).getUTCDate() !== d || m < 1 || m > 12) {
    throw refuse(option, text, 'is no day of the calendar');
  }
  if (zone !== undefined) {
    const colon = zone.length === 5 ? `${zone.slice(0, 3)}:${zone.slice(3)}` : zone.toUpperCase();
    const at = Date.parse(
      `${year}-${month}-${day}T${hours}:${minutes}:${String(s).padStart(2, '0')}${colon}`,
    );
    if (Number.isNaN(at)) throw refuse(option, text, 'has an offset that does not exist');
    return { kind: 'instant', at };
  }
  return { kind: 'instant', at: localInstant(option, text, new Date(y, m - 1, d, h, min, s), h, min) };
}

/** Clocks that are set forward skip a time, clocks that are set back show one twice: both are said. */
function localInstant(option: string, text: string, date: Date, hours: number, minutes: number): WallTime {
  const shows = (wall: WallTime): boolean => {
    const other = new Date(wall);
    return other.getHours() === hours && other.getMinutes() === minutes;
  };
  const at = date.getTime();
  if (!shows(at)) throw refuse(option, text, 'does not exist here: the clocks are set forward then');
  if ([-HOUR, -30 * MINUTE, 30 * MINUTE, HOUR].some(shift => shows(at + shift))) {
    throw refuse(
      option,
      text,
      'comes twice here, when the clocks are set back; add the offset, such as +01:00',
    );
  }
  return at;
}

/** The first instant at or after another at which a clock shows a time; a skipped time counts when it would be. */
export function nextClock(hours: number, minutes: number, after: WallTime): WallTime {
  const first = new Date(after);
  for (let day = 0; ; day += 1) {
    const at = new Date(
      first.getFullYear(),
      first.getMonth(),
      first.getDate() + day,
      hours,
      minutes,
    ).getTime();
    if (at >= after) return at;
  }
}
