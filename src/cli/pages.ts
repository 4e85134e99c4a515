/** Labels, card and calendar of a batch, as text and as files: for the commands and for the last screen of a batch. */
import type { BagStanding } from '../core/record/bags.ts';
import type { MadePage, PageKind } from '../core/record/after.ts';
import { doubtOf } from '../core/record/doubt.ts';
import { type FollowUp, followUpsOf, growthOf } from '../core/record/follow-ups.ts';
import type { Paper } from '../core/record/html.ts';
import { DEFAULT_GRID, type LabelGrid, type LabelledBag } from '../core/record/labels.ts';
import type { RecordedBatch } from '../core/record/record.ts';
import { countOf } from '../core/words/count.ts';
import { STANDING_NAMES } from '../core/words/record.ts';
import { GrowerError } from '../shell/failure.ts';
import { openPage, writePage } from '../shell/record-pages.ts';
import { clockWords, dateWords, wantedBatch } from './record-world.ts';
import type { World } from './world.ts';

/** Where lengths are inches, printers hold Letter. */
export const paperHere = ({ batch }: RecordedBatch): Paper =>
  batch.header.kitchen.units.length === 'in' ? 'Letter' : 'A4';

/** Not kept, or not for long: no label. */
const UNLABELLED: readonly BagStanding[] = ['torn', 'left out', 'contaminated', 'discarded'];

/** Bags that get a label: those that are kept. */
export function labelledBags({ batch, bags, warmthC }: RecordedBatch): readonly LabelledBag[] {
  const { kitchen, recipe } = batch.header;
  return bags
    .filter(({ standing }) => !UNLABELLED.includes(standing))
    .map(bag => ({
      bag,
      grain: recipe.grain,
      growth: growthOf(bag.species, warmthC ?? kitchen.roomC),
      doubt: doubtOf(batch, bag),
    }));
}

/** How many have no label, in a sentence; empty when all have one. */
export function withoutLabel({ batch, bags }: RecordedBatch, labelled: readonly LabelledBag[]): string {
  if (bags.length === labelled.length) return '';
  const kind = batch.header.recipe.containers.kind;
  const counts = UNLABELLED.map(
    standing => [standing, bags.filter(bag => bag.standing === standing).length] as const,
  );
  const parts = counts
    .filter(([, count]) => count > 0)
    .map(([standing, count]) => `${countOf(count, kind)} ${STANDING_NAMES[standing]}`);
  return `Without a label: ${parts.join(', ')}.`;
}

export async function labelsText(
  { batch }: RecordedBatch,
  labelled: readonly LabelledBag[],
  grid: LabelGrid,
): Promise<string> {
  const { labelsPage } = await import('../core/record/labels.ts');
  return labelsPage(labelled, grid, batch.header.kitchen.units, dateWords);
}

export async function cardText(recorded: RecordedBatch, paper: Paper): Promise<string> {
  const { cardPage } = await import('../core/record/card.ts');
  const { units } = recorded.batch.header.kitchen;
  return cardPage(recorded, paper, { units, date: dateWords, clock: clockWords });
}

/** Follow-ups of all batches, earliest first. A batch that nobody gave a temperature grows at room temperature. */
export const allFollowUps = (batches: readonly RecordedBatch[]): readonly FollowUp[] =>
  batches
    .flatMap(({ bags, warmthC, batch }) => followUpsOf(bags, warmthC ?? batch.header.kitchen.roomC))
    .sort((a, b) => a.from - b.from);

export async function calendarOf(followUps: readonly FollowUp[], world: World): Promise<string> {
  const { calendarText } = await import('../shell/calendar.ts');
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  return calendarText(followUps, { now: world.clock.sample().wall, zone, date: dateWords });
}

async function made(world: World, kind: PageKind, id: string): Promise<MadePage> {
  const recorded = wantedBatch(world, id);
  const write = (text: string, stem: string, ending: string): string =>
    writePage(text, null, `${stem}-${recorded.id}`, ending, world.places.pages);
  if (kind === 'calendar') {
    const followUps = allFollowUps([recorded]);
    if (followUps.length === 0)
      return { path: null, says: 'There is nothing to follow up, so there is no calendar.' };
    const path = write(await calendarOf(followUps, world), 'follow-ups', '.ics');
    return {
      path,
      says: `${countOf(followUps.length, 'follow-up')} in ${path}: open it with your calendar.`,
    };
  }
  const paper = paperHere(recorded);
  if (kind === 'card') {
    const path = write(await cardText(recorded, paper), 'card', '.html');
    return { path, says: `Written to ${path}. o opens it in the browser.` };
  }
  const labelled = labelledBags(recorded);
  if (labelled.length === 0)
    return { path: null, says: `There is nothing to label. ${withoutLabel(recorded, labelled)}`.trim() };
  const path = write(await labelsText(recorded, labelled, { ...DEFAULT_GRID, paper }), 'labels', '.html');
  const rest = withoutLabel(recorded, labelled);
  return { path, says: `Written to ${path}. o opens it in the browser.${rest === '' ? '' : ` ${rest}`}` };
}

/** Writes the page; what cannot be written is told. */
export async function makePage(world: World, kind: PageKind, id: string): Promise<MadePage> {
  try {
    return await made(world, kind, id);
  } catch (problem) {
    if (problem instanceof GrowerError) return { path: null, says: problem.message };
    throw problem;
  }
}

/** Opens a page that was written; a sentence either way. */
export const showPage = async (path: string): Promise<string> =>
  (await openPage(path, process.platform, process.env)) ??
  'Opened in your browser: print it without margins, at 100 %.';
