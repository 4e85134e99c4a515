/** Follow-ups as an iCalendar file (RFC 5545), with an alarm each and in the person's own time zone. */
import { crc32 } from 'node:zlib';
import type { FollowUp } from '../core/record/follow-ups.ts';
import { DAY, HOUR, MINUTE, type WallTime } from '../core/time.ts';
import { bagsText, FOLLOW_UP_NAMES, followUpAct, growthWords } from '../core/words/record.ts';
import { localStamp, timeZoneComponent } from './time-zone.ts';

export interface CalendarOptions {
  readonly now: WallTime;
  /** IANA name, as `Europe/Rome`. */
  readonly zone: string;
  /** A short local date. */
  readonly date: (wall: WallTime) => string;
}

/** Hour of the day at which a follow-up stands in the calendar: after work, before the kitchen is needed. */
const AT_HOUR = 18;
const LENGTH = 15 * MINUTE;

/** That hour of the local day of an instant, by the zone of this process. */
function eveningOf(wall: WallTime): Date {
  const day = new Date(wall);
  day.setHours(AT_HOUR, 0, 0, 0);
  return day;
}

function titleOf({ kind, batch, bags, species }: FollowUp): string {
  const what = `${bagsText(bags)} of ${batch}${species ? ` (${species})` : ''}`;
  switch (kind) {
    case 'look':
      return `Look at ${what}`;
    case 'shake':
      return `Shake ${what}`;
    case 'done':
      return `Done? ${what}`;
    case 'bin':
      return `Bin ${what}, closed`;
  }
}

/**
 * Stays the same when the calendar is made again, so that entries are replaced and not doubled: also when some
 * of the bags are done meanwhile, or the days go by another temperature.
 */
function uidOf({ kind, batch, bags, species }: FollowUp): string {
  const since = bags.map(bag =>
    kind === 'bin' ? (bag.contaminatedWall ?? bag.since) : (bag.inoculatedWall ?? 0),
  );
  const day = new Date(Math.min(...since)).toISOString().slice(0, 16).replaceAll(/\D/g, '');
  return `${kind}-${batch}-${day}-${crc32(species).toString(16)}@stovehand`;
}

/** Names of UTC itself, which a calendar writes without a zone. */
const UTC = /^(?:Etc\/)?(?:UTC|UCT|GMT|Zulu|Universal|Greenwich)$/;

/**
 * Two habits of the library are put right: RFC 5545, 3.8.7.2, wants the stamp in UTC, and 3.6 wants properties
 * of the calendar before its components, where the zone is named once more than needed.
 */
function tidied(text: string, now: WallTime): string {
  const stamp = `${localStamp(now, 0)}Z`;
  return text
    .replaceAll(/^DTSTAMP:.*$/gm, `DTSTAMP:${stamp}`)
    .replaceAll(/^(?:X-WR-TIMEZONE|TIMEZONE-ID):.*\r\n/gm, '');
}

/** The calendar file's text. */
export async function calendarText(
  followUps: readonly FollowUp[],
  { now, zone, date }: CalendarOptions,
): Promise<string> {
  const { default: ical, ICalAlarmType } = await import('ical-generator');
  const last = Math.max(now, ...followUps.map(({ to }) => to));
  const isUtc = UTC.test(zone);
  const first = Math.min(now, ...followUps.map(({ from }) => from));
  const calendar = ical({
    name: 'Stovehand follow-ups',
    prodId: { company: 'Stovehand', product: 'follow-ups', language: 'EN' },
    ...(isUtc
      ? {}
      : {
          timezone: {
            name: zone,
            generator: () => timeZoneComponent(zone, first - 2 * DAY, last + 2 * DAY),
          },
        }),
  });
  for (const followUp of followUps) {
    const start = eveningOf(followUp.from);
    const range = followUp.kind === 'bin' ? '' : `Between ${date(followUp.from)} and ${date(followUp.to)}. `;
    const event = calendar.createEvent({
      id: uidOf(followUp),
      start,
      end: new Date(start.getTime() + LENGTH),
      stamp: new Date(now),
      ...(isUtc ? {} : { timezone: zone }),
      // Of two with the same id the one made later counts (RFC 5545, 3.8.7.4).
      sequence: Math.floor(now / MINUTE),
      summary: titleOf(followUp),
      description: `${range}${followUpAct(followUp)}\n${followUp.bags.map(({ id }) => id).join(', ')}\n${FOLLOW_UP_NAMES[followUp.kind]}: ${growthWords(followUp.growth)}.`,
    });
    event.createAlarm({ type: ICalAlarmType.display, triggerBefore: 0, description: titleOf(followUp) });
    // A second one on the last day of the range, for what was put off.
    const late = followUp.to - followUp.from;
    if (late >= DAY)
      event.createAlarm({
        type: ICalAlarmType.display,
        triggerAfter: Math.round((late + HOUR) / 1000),
        description: titleOf(followUp),
      });
  }
  return tidied(calendar.toString(), now);
}
