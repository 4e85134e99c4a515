/** `due` and `calendar`: what the bags want, and when. */
import { resolve } from 'node:path';
import { dueNow, urgencyOf } from '../core/record/follow-ups.ts';
import { countOf } from '../core/words/count.ts';
import { dueLine, followUpAct, growthWords, nextWords } from '../core/words/record.ts';
import { EXIT } from '../shell/failure.ts';
import { writePage } from '../shell/record-pages.ts';
import type { Arguments } from './arguments.ts';
import { allFollowUps, calendarOf } from './pages.ts';
import { say, sayJson, sayNotices } from './record-out.ts';
import { dateWords, dayAround, readRecord, wantedBatch } from './record-world.ts';
import type { World } from './world.ts';

export function due(said: Arguments, world: World): number {
  const { batches, notices } = readRecord(world);
  const { start, end } = dayAround(world.clock.sample().wall);
  const all = allFollowUps(batches);
  const rows = all.map(followUp => ({ followUp, urgency: urgencyOf(followUp, start, end) }));
  const now = dueNow(all, { start, end });
  sayNotices(notices);
  if (said.json) {
    sayJson(
      rows.map(({ followUp: { kind, batch, bags, species, from, to }, urgency }) => ({
        kind,
        batch,
        bags: bags.map(({ id }) => id),
        species,
        from: new Date(from).toISOString(),
        to: new Date(to).toISOString(),
        urgency,
      })),
    );
    return EXIT.ok;
  }
  for (const followUp of now) {
    const { kind, from, to, growth } = followUp;
    const sure = kind === 'bin' ? '' : `; ${growthWords(growth)}`;
    say(dueLine(followUp), `  ${followUpAct(followUp)}`, `  ${dateWords(from)} to ${dateWords(to)}${sure}.`);
  }
  const later = rows.find(({ urgency }) => urgency === 'later')?.followUp;
  if (now.length === 0) say('Nothing is due today.');
  if (later) say(`Next for batch ${later.batch}: ${nextWords(later, start, dateWords)}.`);
  return EXIT.ok;
}

export async function calendar(said: Arguments, world: World): Promise<number> {
  const [wanted] = said.words;
  const followUps = allFollowUps(
    wanted === undefined ? readRecord(world).batches : [wantedBatch(world, wanted)],
  );
  if (followUps.length === 0) {
    say('There is nothing to follow up, so there is no calendar.');
    return EXIT.ok;
  }
  const text = await calendarOf(followUps, world);
  const { out } = said.options;
  const path = writePage(
    text,
    typeof out === 'string' ? resolve(out) : null,
    `follow-ups${wanted === undefined ? '' : `-${followUps[0]?.batch ?? ''}`}`,
    '.ics',
    world.places.pages,
  );
  say(`${countOf(followUps.length, 'follow-up')} in ${path}`);
  return EXIT.ok;
}
