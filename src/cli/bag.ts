/** `bag`, `bags` and `cultures`: one line says what became of a bag. */
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseTemperature } from '../core/quantity.ts';
import { formatMass, formatTemperature } from '../core/quantity-format.ts';
import { type Bag, indexDiary, outcomeOf } from '../core/record/bags.ts';
import { causesOf } from '../core/record/causes.ts';
import {
  CULTURE_FORMS,
  cultureKey,
  culturesOf,
  type DiaryEvent,
  isDayText,
  LONGEST_TEXT,
  readBagId,
} from '../core/record/diary.ts';
import { followUpsOf } from '../core/record/follow-ups.ts';
import { doseFor, inoculationSteps } from '../core/record/inoculation.ts';
import { recordedBatch, type RecordedBatch } from '../core/record/record.ts';
import { atMost } from '../core/text.ts';
import { CAUSE_NAMES, causeEvidence, HINT_CAUTION, NO_CAUSE } from '../core/words/causes.ts';
import {
  CONTAMINATED_CAUTION,
  cultureText,
  doseText,
  FOLLOW_UP_NAMES,
  speciesNote,
  standingText,
} from '../core/words/record.ts';
import { unusualAmount } from '../core/words/giving.ts';
import { EXIT } from '../shell/failure.ts';
import type { Arguments } from './arguments.ts';
import { type Draft, readWhat } from './bag-what.ts';
import { aligned, say, sayJson, usage } from './record-out.ts';
import { clockWords, dateWords, diaryOf, readRecord, wantedBatch } from './record-world.ts';
import type { World } from './world.ts';

function findBag(recorded: RecordedBatch, id: string): Bag {
  const found = recorded.bags.find(bag => bag.id === id);
  if (found) return found;
  const all = recorded.bags.map(({ number }) => number);
  throw usage(
    `Batch ${recorded.id} has no such bag.`,
    all.length === 0
      ? 'It has none.'
      : `It has ${recorded.id}-${Math.min(...all)} to ${recorded.id}-${Math.max(...all)}.`,
  );
}

/** Everything about one bag, in lines. */
function bagLines(recorded: RecordedBatch, bag: Bag): readonly string[] {
  const { batch } = recorded;
  const { units } = batch.header.kitchen;
  const rows: string[][] = [
    ['bag', bag.id],
    ['state', `${standingText(bag)}, since ${dateWords(bag.since)}`],
    [
      'filled',
      `${batch.header.recipe.grain}${bag.kg === null ? '' : `, ${formatMass(bag.kg, units)}`}, load ${bag.load}${bag.place === '' ? '' : `, ${bag.place}`}`,
    ],
    ['seal', bag.seal ?? 'not said'],
  ];
  if (bag.inoculatedWall !== null)
    rows.push(
      [
        'culture',
        [bag.species || 'no species', bag.form, bag.culture?.key ?? '', bag.culture?.source ?? '']
          .filter(text => text !== '')
          .join(', '),
      ],
      ['given', `${doseText(bag)} on ${dateWords(bag.inoculatedWall)}, ${clockWords(bag.inoculatedWall)}`],
    );
  if (bag.kg !== null && bag.standing === 'empty') {
    const { low, high, unit, source } = doseFor(bag.form, bag.kg);
    rows.push(['to give', `${low} to ${high} ${unit} (${source})`]);
  }
  for (const { kind, from, to } of followUpsOf([bag], recorded.warmthC ?? batch.header.kitchen.roomC)) {
    rows.push([FOLLOW_UP_NAMES[kind], `${dateWords(from)} to ${dateWords(to)}`]);
  }
  for (const note of bag.notes) rows.push(['note', note]);
  for (const photo of bag.photos) rows.push(['photo', photo]);
  const lines = [...aligned(rows)];
  if (bag.inoculatedWall === null && bag.standing === 'empty')
    lines.push('', ...inoculationSteps(bag.form, bag.kind).map(line => `- ${line}`));
  if (bag.standing === 'contaminated') lines.push('', CONTAMINATED_CAUTION);
  if (outcomeOf(bag) === 'lost') {
    const causes = causesOf(batch, bag, bag.looks);
    lines.push('', 'In this record:');
    lines.push(
      ...(causes.length === 0
        ? [`- ${NO_CAUSE}`]
        : causes.map(cause => `- ${CAUSE_NAMES[cause.id]}: ${causeEvidence(cause, units)}`)),
      HINT_CAUTION,
    );
  }
  return lines;
}

/** An amount just noted that is out of the usual range: kept, since it may be so, and asked about. */
const doubtsOf = (shown: Bag, events: readonly DiaryEvent[]): readonly string[] =>
  events.flatMap(event => {
    const dose = event.type === 'inoculated' ? event.dose : null;
    const doubt = dose === null ? null : unusualAmount(shown, shown.form, dose);
    return doubt === null ? [] : [`${doubt} If that is a slip: stovehand bag ${shown.id} undo`];
  });

export function bag(said: Arguments, world: World): number {
  const [wanted = '', ...words] = said.words;
  const place = readBagId(wanted);
  if (!place)
    throw usage(
      `"${atMost(wanted, 40)}" is no bag: they are called like 2648a-3.`,
      'List them with: stovehand bags',
    );
  const id = `${place.batch}-${place.number}`;
  const before = findBag(wantedBatch(world, place.batch), id);
  const diary = diaryOf(world);
  const drafts: Draft[] = words.length === 0 ? [] : [readWhat(before, words, world)];
  const photo = said.options.photo;
  if (typeof photo === 'string') {
    const path = resolve(photo);
    if (path.length > LONGEST_TEXT || !existsSync(path))
      throw usage(`There is no photo ${atMost(path, 120)}.`);
    drafts.push({ type: 'photo', bag: id, path });
  }
  if (drafts.includes('undo')) {
    const last = indexDiary(diary.read().entries).byBag.get(id)?.at(-1);
    if (!last) throw usage(`Nothing of the diary is left to take back for ${id}.`);
    diary.add({ type: 'taken-back', entry: last.id });
  }
  const events = drafts.filter(draft => draft !== 'undo');
  if (events.length > 0) diary.add(...events);
  const reading = diary.read();
  const after = recordedBatch(wantedBatch(world, place.batch).batch, indexDiary(reading.entries));
  const shown = findBag(after, id);
  if (said.json) sayJson({ ...shown, outcome: outcomeOf(shown) });
  else say(...bagLines(after, shown), ...doubtsOf(shown, events), ...reading.notices);
  return EXIT.ok;
}

/** Where bags stand: of one batch, or of all whose outcome is open. With a temperature: where the batch grows. */
export function bags(said: Arguments, world: World): number {
  const [wanted, ...rest] = said.words;
  if (wanted !== undefined && rest.length > 0) {
    const warmth = parseTemperature(rest.join(' '));
    if (!warmth.ok || warmth.value < -20 || warmth.value > 60)
      throw usage(`"${rest.join(' ')}" is no temperature to grow at.`, 'Write it as 24 C or 75 F.');
    const { id, batch } = wantedBatch(world, wanted);
    diaryOf(world).add({ type: 'warmth', batch: id, celsius: warmth.value });
    say(
      `Batch ${id} grows at ${formatTemperature(warmth.value, batch.header.kitchen.units)}: its dates go by that.`,
    );
    return EXIT.ok;
  }
  const batches = wanted === undefined ? readRecord(world).batches : [wantedBatch(world, wanted)];
  const shown = batches.flatMap(({ bags: all }) =>
    all.filter(each => wanted !== undefined || outcomeOf(each) === 'open'),
  );
  if (said.json) {
    sayJson(shown.map(each => ({ ...each, outcome: outcomeOf(each) })));
    return EXIT.ok;
  }
  const { units } = world.settings.values.kitchen;
  const rows = shown.map(each => [
    each.id,
    standingText(each),
    dateWords(each.since),
    each.kg === null || !units ? (each.kg === null ? '' : `${each.kg} kg`) : formatMass(each.kg, units),
    cultureText(each),
    doseText(each),
  ]);
  say(
    ...(rows.length === 0
      ? [wanted === undefined ? 'No bag is growing just now.' : 'It has no bags.']
      : aligned(rows)),
  );
  return EXIT.ok;
}

export function cultures(said: Arguments, world: World): number {
  const diary = diaryOf(world);
  const [verb, ...rest] = said.words;
  if (verb !== undefined) {
    const species = rest.join(' ').trim();
    if (verb !== 'add' || species === '' || species.length > 80)
      throw usage(
        'Write it as: stovehand cultures add SPECIES --form "liquid culture" --source WHERE --made 2026-11-04',
      );
    const { form: wanted = 'liquid culture', source = '', made = '' } = said.options;
    const form = CULTURE_FORMS.find(known => known === wanted);
    if (!form) throw usage(`"${wanted}" is no form of culture.`, `One of: ${CULTURE_FORMS.join(', ')}`);
    if (made !== '' && !isDayText(String(made)))
      throw usage(`"${made}" is no day.`, 'Write it as 2026-11-04.');
    const taken = new Set(culturesOf(diary.read().entries).keys());
    const key = cultureKey(species, String(made), taken);
    diary.add({
      type: 'culture',
      key,
      species,
      source: atMost(String(source), 200),
      form,
      made: String(made),
    });
    say(`${key} is in your list: give it with "stovehand bag 2648a-3 culture ${key}".`);
    const note = speciesNote(species);
    if (note !== null) say(note);
    return EXIT.ok;
  }
  const list = [...culturesOf(diary.read().entries).values()];
  if (said.json) sayJson(list);
  else
    say(
      ...(list.length === 0
        ? ['No culture yet. Add one: stovehand cultures add oyster --form "liquid culture"']
        : aligned(list.map(({ key, species, form, source, made }) => [key, species, form, source, made]))),
    );
  return EXIT.ok;
}
