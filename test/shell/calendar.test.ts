import ICAL from 'ical.js';
import { afterEach, describe, expect, it } from 'vitest';
import { bagsOf, indexDiary } from '../../src/core/record/bags.ts';
import { followUpsOf } from '../../src/core/record/follow-ups.ts';
import { DAY, HOUR, MINUTE } from '../../src/core/time.ts';
import { calendarText } from '../../src/shell/calendar.ts';
import { changesBetween, offsetsOf, timeZoneComponent } from '../../src/shell/time-zone.ts';
import { BEGAN_WALL } from '../help/batch-kit.ts';
import { diaryOf, drivenBatch, homeHeader } from '../help/record-home.ts';

const home = process.env.TZ;
afterEach(() => {
  process.env.TZ = home;
});
// European clocks go forward on the night after BEGAN_WALL; the autumn sample crosses the other change.
const spring = drivenBatch(homeHeader('2613a', { soak: false, loads: [3] })).batch;
const autumn = drivenBatch(homeHeader('2642a', { soak: false, loads: [2] }, Date.UTC(2026, 9, 16, 18))).batch;
const date = (wall: number): string => new Date(wall).toISOString().slice(0, 10);
const followUps = [spring, autumn].flatMap(batch => followUpsOf(bagsOf(batch, indexDiary([])), 24));

async function parsed(zone: string) {
  process.env.TZ = zone;
  const text = await calendarText(followUps, { now: BEGAN_WALL, zone, date });
  const calendar = new ICAL.Component(ICAL.parse(text));
  const timezone = new ICAL.Timezone(calendar.getFirstSubcomponent('vtimezone') ?? undefined);
  return { text, calendar, timezone, events: calendar.getAllSubcomponents('vevent') };
}

describe('the calendar file, read back by ical.js', () => {
  it.each([
    'Europe/Rome',
    'America/New_York',
    'Asia/Kolkata',
    'Australia/Lord_Howe',
    'America/St_Johns',
    'UTC',
    'Etc/UTC',
    'Pacific/Auckland',
  ])('in %s every follow-up stands at six in the evening of its day', async zone => {
    const { events, timezone } = await parsed(zone);
    expect(events).toHaveLength(followUps.length);
    events.forEach((component, index) => {
      const start = component.getFirstPropertyValue('dtstart') as ICAL.Time;
      // UTC is written as such, with a Z instead of a zone.
      const isUtc = zone.endsWith('UTC');
      expect(component.getFirstProperty('dtstart')?.getParameter('tzid')).toBe(isUtc ? undefined : zone);
      expect(start.zone === ICAL.Timezone.utcTimezone).toBe(isUtc);
      expect([start.hour, start.minute]).toEqual([18, 0]);
      if (!isUtc) start.zone = timezone;
      // The same instant by the system's own zone data: the evening of the local day the range begins on.
      const day = new Date(followUps[index]?.from ?? 0);
      day.setHours(18, 0, 0, 0);
      expect(start.toUnixTime() * 1000).toBe(day.getTime());
    });
  });

  it('has what RFC 5545 asks for: version, producer, unique ids, UTC stamps, alarms, lines of at most 75 octets', async () => {
    const { text, calendar, events } = await parsed('Europe/Rome');
    expect(calendar.getFirstPropertyValue('version')).toBe('2.0');
    expect(calendar.getFirstPropertyValue('prodid')).toContain('Stovehand');
    const ids = events.map(event => String(event.getFirstPropertyValue('uid')));
    expect(new Set(ids).size).toBe(ids.length);
    for (const event of events) {
      expect((event.getFirstPropertyValue('dtstamp') as ICAL.Time).zone).toBe(ICAL.Timezone.utcTimezone);
      const alarms = event.getAllSubcomponents('valarm');
      expect(alarms.length).toBeGreaterThan(0);
      for (const alarm of alarms) {
        expect(alarm.getFirstPropertyValue('action')).toBe('DISPLAY');
        expect(alarm.getFirstPropertyValue('description')).not.toBe('');
      }
    }
    expect(text.endsWith('END:VCALENDAR') || text.endsWith('END:VCALENDAR\r\n')).toBe(true);
    for (const line of text.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    // Properties of the calendar come before its components (3.6).
    const body = text.slice(text.indexOf('BEGIN:VTIMEZONE'));
    expect(
      body
        .split(/END:(?:VTIMEZONE|VEVENT)\r\n/)
        .slice(1)
        .every(part => /^(?:BEGIN|END):/.test(part)),
    ).toBe(true);
  });

  it.each(['UTC', 'Etc/UTC', 'Europe/Rome', 'Asia/Kolkata'])(
    'in %s every zone that is described is used, and every one used is described',
    async zone => {
      const { calendar, text } = await parsed(zone);
      const described = calendar
        .getAllSubcomponents('vtimezone')
        .map(each => String(each.getFirstPropertyValue('tzid')));
      const used = [...text.matchAll(/TZID=([^:;]+)/g)].map(([, name]) => name);
      expect(described).toEqual([...new Set(used)]);
      expect(described).toEqual(zone.endsWith('UTC') ? [] : [zone]);
    },
  );

  it('rings when the range begins, and once more on its last day', async () => {
    const { events, timezone } = await parsed('Europe/Rome');
    events.forEach((component, index) => {
      const event = new ICAL.Event(component);
      event.startDate.zone = timezone;
      const { from, to } = followUps[index] ?? { from: 0, to: 0 };
      const rings = component.getAllSubcomponents('valarm').map(alarm => {
        const trigger = alarm.getFirstProperty('trigger');
        const base = trigger?.getParameter('related') === 'END' ? event.endDate : event.startDate;
        const at = base.clone();
        at.addDuration(trigger?.getFirstValue() as ICAL.Duration);
        return [at.year, at.month, at.day, at.hour].join('-');
      });
      const localDay = (wall: number, hour: number): string => {
        const day = new Date(wall);
        return [day.getFullYear(), day.getMonth() + 1, day.getDate(), hour].join('-');
      };
      expect(rings).toEqual(to - from < DAY ? [localDay(from, 18)] : [localDay(from, 18), localDay(to, 19)]);
    });
  });

  it('says what to do and between which days', async () => {
    const { events } = await parsed('Europe/Rome');
    const titles = events.map(event => String(event.getFirstPropertyValue('summary')));
    expect(titles).toContain('Look at bags 1, 2, 3 of 2613a (oyster)');
    expect(String(events[0]?.getFirstPropertyValue('description'))).toMatch(
      /^Between 2026-04-01 and 2026-04-03\. Look through/,
    );
  });

  it('made again it keeps its ids, so that a calendar replaces instead of doubling', async () => {
    const ids = async () =>
      (await parsed('Europe/Rome')).events.map(event => String(event.getFirstPropertyValue('uid')));
    const before = await ids();
    expect(await ids()).toEqual(before);
    // Bag 1 is done meanwhile, and the room was colder than was said: the entries are the same.
    const later = followUpsOf(
      bagsOf(spring, indexDiary(diaryOf([{ type: 'state', bag: '2613a-1', state: 'done', looks: null }]))),
      20,
    );
    const text = await calendarText(later, { now: BEGAN_WALL + DAY, zone: 'Europe/Rome', date });
    const again = new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent');
    for (const event of again) {
      expect(before).toContain(String(event.getFirstPropertyValue('uid')));
      expect(Number(event.getFirstPropertyValue('sequence'))).toBeGreaterThan(BEGAN_WALL / MINUTE);
    }
  });
});

describe('time zones', () => {
  it('European changes of 2026 are on 29 March and 25 October at 01:00 UTC (Directive 2000/84/EC)', () => {
    const changes = changesBetween(Date.UTC(2026, 0, 1), Date.UTC(2027, 0, 1), offsetsOf('Europe/Rome'));
    expect(changes).toEqual([
      { at: Date.UTC(2026, 2, 29, 1), before: 60, after: 120 },
      { at: Date.UTC(2026, 9, 25, 1), before: 120, after: 60 },
    ]);
  });

  it('zones of half and quarter hours, and one without any change', () => {
    expect(offsetsOf('Asia/Kathmandu')(0 + Date.UTC(2026, 0, 1))).toBe(345);
    expect(offsetsOf('America/St_Johns')(Date.UTC(2026, 0, 1))).toBe(-210);
    expect(changesBetween(Date.UTC(2026, 0, 1), Date.UTC(2027, 0, 1), offsetsOf('Asia/Kolkata'))).toEqual([]);
    expect(
      changesBetween(Date.UTC(2026, 0, 1), Date.UTC(2027, 0, 1), offsetsOf('Australia/Lord_Howe')).map(
        ({ before, after }) => after - before,
      ),
    ).toEqual([-30, 30]);
    expect(() => offsetsOf('Mars/Olympus')).toThrow(RangeError);
  });

  it('every hour of the span is the same instant by ical.js and by the system', () => {
    for (const zone of ['Europe/Rome', 'America/New_York', 'Australia/Lord_Howe']) {
      const [from, to] = [Date.UTC(2026, 1, 1), Date.UTC(2026, 11, 1)];
      const timezone = new ICAL.Timezone(new ICAL.Component(ICAL.parse(timeZoneComponent(zone, from, to))));
      const offsetAt = offsetsOf(zone);
      for (let wall = from + DAY; wall < to - DAY; wall += 7 * HOUR) {
        // Around a change one clock time is two instants or none: those hours are left out.
        if (changesBetween(wall - 3 * HOUR, wall + 3 * HOUR, offsetAt).length > 0) continue;
        const local = new Date(wall + offsetAt(wall) * MINUTE);
        const time = new ICAL.Time(
          {
            year: local.getUTCFullYear(),
            month: local.getUTCMonth() + 1,
            day: local.getUTCDate(),
            hour: local.getUTCHours(),
            minute: local.getUTCMinutes(),
            second: 0,
            isDate: false,
          },
          timezone,
        );
        expect(time.toUnixTime() * 1000).toBe(wall);
      }
    }
  });
});
