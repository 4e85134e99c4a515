/** `labels` and `card`: pages for the printer. */
import { resolve } from 'node:path';
import type { Paper } from '../core/record/html.ts';
import { DEFAULT_GRID, type LabelGrid, LEAST_LABEL, labelSize } from '../core/record/labels.ts';
import { EXIT } from '../shell/failure.ts';
import type { RecordedBatch } from '../core/record/record.ts';
import { writePage } from '../shell/record-pages.ts';
import type { Arguments } from './arguments.ts';
import { say, usage } from './record-out.ts';
import { cardText, labelledBags, labelsText, paperHere, showPage, withoutLabel } from './pages.ts';
import { wantedBatch } from './record-world.ts';
import type { World } from './world.ts';

function paperOf(said: Arguments, recorded: RecordedBatch): Paper {
  const wanted = String(said.options.sheet ?? paperHere(recorded)).toLowerCase();
  if (wanted === 'a4') return 'A4';
  if (wanted === 'letter') return 'Letter';
  throw usage('The sheet is A4 or Letter.');
}

function gridOf(said: Arguments, recorded: RecordedBatch): LabelGrid {
  const match = /^(\d{1,2})x(\d{1,2})$/.exec(
    String(said.options.grid ?? `${DEFAULT_GRID.columns}x${DEFAULT_GRID.rows}`),
  );
  const skip = /^\d{1,3}$/.test(String(said.options.skip ?? '0')) ? Number(said.options.skip ?? 0) : -1;
  const grid = {
    paper: paperOf(said, recorded),
    columns: Number(match?.[1] ?? 0),
    rows: Number(match?.[2] ?? 0),
    skip,
  };
  if (!labelSize(grid)) {
    throw usage(
      `The grid is columns x rows, as 3x8, with labels of at least ${LEAST_LABEL.widthMm} x ${LEAST_LABEL.heightMm} mm.`,
    );
  }
  const most = grid.columns * grid.rows - 1;
  if (skip < 0 || skip > most) throw usage(`Of this sheet 0 to ${most} labels can be skipped.`);
  return grid;
}

async function finish(said: Arguments, world: World, page: string, stem: string): Promise<number> {
  const { out } = said.options;
  const path = writePage(
    page,
    typeof out === 'string' ? resolve(out) : null,
    stem,
    '.html',
    world.places.pages,
  );
  say(`Written to ${path}`);
  if (said.options.open) say(await showPage(path));
  else say('Open it in a browser and print it without margins, at 100 %.');
  return EXIT.ok;
}

export async function labels(said: Arguments, world: World): Promise<number> {
  const recorded = wantedBatch(world, said.words[0] ?? '');
  const grid = gridOf(said, recorded);
  const labelled = labelledBags(recorded);
  const rest = withoutLabel(recorded, labelled);
  if (labelled.length === 0) {
    say(`Batch ${recorded.id} has nothing to label.${rest === '' ? '' : ` ${rest}`}`);
    return EXIT.ok;
  }
  if (rest !== '') say(rest);
  return finish(said, world, await labelsText(recorded, labelled, grid), `labels-${recorded.id}`);
}

export async function card(said: Arguments, world: World): Promise<number> {
  const recorded = wantedBatch(world, said.words[0] ?? '');
  return finish(said, world, await cardText(recorded, paperOf(said, recorded)), `card-${recorded.id}`);
}
