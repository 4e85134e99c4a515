/**
 * The rules of a time zone over a span, as a VTIMEZONE of RFC 5545, out of the offsets that the system's own
 * zone data give. Every change of the offset within the span becomes one observance with its own onset, which
 * the standard allows instead of a recurrence rule and which is exact for the span.
 */

const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;
const DAY_MS = 24 * HOUR_MS;

export type OffsetAt = (wall: number) => number;

/** Minutes east of UTC that a zone keeps at an instant. RangeError for an unknown zone. */
export function offsetsOf(zone: string): OffsetAt {
  const format = new Intl.DateTimeFormat('en-US', { timeZone: zone, timeZoneName: 'longOffset' });
  return wall => {
    const name = format.formatToParts(wall).find(({ type }) => type === 'timeZoneName')?.value ?? 'GMT';
    const match = /^GMT(?:([+-])(\d{2}):(\d{2})(?::\d{2})?)?$/.exec(name);
    if (!match) throw new RangeError(`The zone ${zone} gives no offset: ${name}`);
    const minutes = Number(match[2] ?? 0) * 60 + Number(match[3] ?? 0);
    return match[1] === '-' ? -minutes : minutes;
  };
}

const two = (value: number): string => String(value).padStart(2, '0');

/** `+0130`. */
function offsetText(minutes: number): string {
  const size = Math.abs(minutes);
  return `${minutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}${two(size % 60)}`;
}

/** Local date and time at an offset, `20260329T020000`. */
export function localStamp(wall: number, offsetMinutes: number): string {
  return new Date(wall + offsetMinutes * MINUTE_MS).toISOString().slice(0, 19).replaceAll(/[-:]/g, '');
}

interface Change {
  readonly at: number;
  readonly before: number;
  readonly after: number;
}

/** Instants at which the offset changes within a span, to the minute. */
export function changesBetween(from: number, to: number, offsetAt: OffsetAt): readonly Change[] {
  const changes: Change[] = [];
  for (let day = from; day < to; day += DAY_MS) {
    const [before, after] = [offsetAt(day), offsetAt(Math.min(day + DAY_MS, to))];
    if (before === after) continue;
    let [low, high] = [day, Math.min(day + DAY_MS, to)];
    while (high - low > 1000) {
      const middle = Math.floor((low + high) / 2);
      if (offsetAt(middle) === before) low = middle;
      else high = middle;
    }
    changes.push({ at: Math.round(high / MINUTE_MS) * MINUTE_MS, before, after });
  }
  return changes;
}

function observance({ at, before, after }: Change, name: 'STANDARD' | 'DAYLIGHT'): string {
  return [
    `BEGIN:${name}`,
    `DTSTART:${localStamp(at, before)}`,
    `TZOFFSETFROM:${offsetText(before)}`,
    `TZOFFSETTO:${offsetText(after)}`,
    `END:${name}`,
  ].join('\r\n');
}

/** The component for a zone, valid from `from` to `to`. */
export function timeZoneComponent(zone: string, from: number, to: number): string {
  const offsetAt = offsetsOf(zone);
  const start = offsetAt(from);
  const all = [{ at: from - DAY_MS, before: start, after: start }, ...changesBetween(from, to, offsetAt)];
  const least = Math.min(...all.map(({ after }) => after));
  const most = Math.max(...all.map(({ after }) => after));
  const parts = all.map(change =>
    observance(change, least !== most && change.after === most ? 'DAYLIGHT' : 'STANDARD'),
  );
  return ['BEGIN:VTIMEZONE', `TZID:${zone}`, ...parts, 'END:VTIMEZONE'].join('\r\n');
}
