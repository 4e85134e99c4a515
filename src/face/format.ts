/** Instants and durations as the screen writes them; local time is only known here, at the edge. */
import type { Batch } from '../core/batch/state.ts';
import type { Units } from '../core/kitchen.ts';
import type { CoachTime, WallTime } from '../core/time.ts';
import type { Telling } from '../core/words/telling.ts';

const two = (value: number): string => String(value).padStart(2, '0');
const DAYS = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'];

/** `23:42`, local time. */
export function clockText(wall: WallTime): string {
  const date = new Date(wall);
  return `${two(date.getHours())}:${two(date.getMinutes())}`;
}

/** `23:42` today, `Thu 07:30` otherwise. */
export function whenText(wall: WallTime, today: WallTime): string {
  const date = new Date(wall);
  const same = date.toDateString() === new Date(today).toDateString();
  return same ? clockText(wall) : `${DAYS[date.getDay()]} ${clockText(wall)}`;
}

/** Minutes after midnight, local time. */
export function minuteOfDay(wall: WallTime): number {
  const date = new Date(wall);
  return date.getHours() * 60 + date.getMinutes();
}

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** `25 Nov 2026`, local date: on screens, in commands and on paper alike. */
export function dateText(wall: WallTime): string {
  const date = new Date(wall);
  return `${date.getDate()} ${MONTHS[date.getMonth()]} ${date.getFullYear()}`;
}

/** Noon of the local day so many days before; a day of 23 hours is one like any other. */
export function daysBefore(wall: WallTime, days: number): WallTime {
  const date = new Date(wall);
  date.setHours(12, 0, 0, 0);
  date.setDate(date.getDate() - days);
  return date.getTime();
}

/** `2026-11-25`, local date: as the record keeps a day. */
export function dayStamp(wall: WallTime): string {
  const date = new Date(wall);
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}

/** Big-digit form of a duration: `1:29:05`, or `9:05` under an hour. Counting down, a begun second still shows. */
export function countText(ms: number, direction: 'down' | 'up'): string {
  const seconds = direction === 'down' ? Math.ceil(ms / 1000) : Math.floor(ms / 1000);
  const hours = Math.floor(seconds / 3600);
  const minutes = Math.floor((seconds % 3600) / 60);
  const rest = two(seconds % 60);
  return hours > 0 ? `${hours}:${two(minutes)}:${rest}` : `${minutes}:${rest}`;
}

/** Wall time of an instant of the batch, by the clock of the computer as it stands now. */
export const wallOf = (batch: Batch, t: CoachTime): WallTime => batch.wall + (t - batch.now);

/** How sentences about this batch name instants and amounts. */
export const tellingOf = (batch: Batch, units: Units): Telling => ({
  units,
  clock: t => whenText(wallOf(batch, t), batch.wall),
});
