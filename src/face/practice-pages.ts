/** The pages of a debrief: one that tells everything, and behind it each decision in full. */
import {
  type Block,
  decisionBlocks,
  faultBlocks,
  numberBlocks,
  progressBlocks,
  verdictBlocks,
} from './practice-lines.ts';
import { type SummaryParts, summaryPage, summaryParts } from './practice-summary.ts';
import { type Row, rowText, span } from './spans.ts';

export type Page = readonly Row[];

const BLANK: Row = [];

/** Parts one after the other, never broken inside a decision or behind a title. */
function broken(parts: readonly (readonly Block[])[], height: number): readonly Page[] {
  const pages: Page[] = [];
  let page: Page = [];
  for (const part of parts) {
    const lines = part.reduce((sum, block) => sum + block.length, 0);
    // A part that fits on a page of its own is not begun at the foot of one that is mostly full.
    if (page.length > height / 2 && page.length + 1 + lines > height && lines <= height) {
      pages.push(page);
      page = [];
    }
    part.forEach((block, index) => {
      const apart = index === 0 && page.length > 0 ? [BLANK] : [];
      if (page.length > 0 && page.length + apart.length + block.length > height) {
        pages.push(page);
        page = block;
      } else page = [...page, ...apart, ...block];
    });
  }
  return page.length > 0 ? [...pages, page] : pages;
}

/** From this width on numbers stand beside the decisions, in a column of so much. */
const SPREAD = 130;
const ASIDE = 56;

/** Everything in full on one wide page: decisions at the left, numbers, faults and progress beside them. */
function spread(parts: SummaryParts): Page {
  const { debrief, telling, look, notes, width } = parts;
  const main = width - ASIDE - 3;
  const left = decisionBlocks(debrief, telling, main).flat();
  const right = [
    numberBlocks(debrief, telling, ASIDE),
    faultBlocks(debrief, look, ASIDE),
    progressBlocks(notes, ASIDE),
  ].flatMap((part, index) => [...(index > 0 && part.length > 0 ? [BLANK] : []), ...part.flat()]);
  const rows = Array.from({ length: Math.max(left.length, right.length) }, (_, index): Row => {
    const [row, beside] = [left[index] ?? BLANK, right[index] ?? BLANK];
    const gap = ' '.repeat(width - ASIDE - [...rowText(row)].length);
    return beside.length === 0 ? row : [...row, span(gap), ...beside];
  });
  return [...verdictBlocks(debrief, width).flat(), BLANK, ...rows];
}

export interface DebriefPages {
  readonly pages: readonly Page[];
  /** So many of them tell everything once; the others tell each decision in full. */
  readonly summaries: number;
}

/** All pages; on a wide terminal only one. */
export function debriefPages(parts: SummaryParts, height: number): DebriefPages {
  const { debrief, telling, look, notes, width } = parts;
  const full = [
    decisionBlocks(debrief, telling, width),
    numberBlocks(debrief, telling, width),
    faultBlocks(debrief, look, width),
    progressBlocks(notes, width),
  ];
  const wide = width >= SPREAD ? spread(parts) : [];
  if (wide.length > 0 && wide.length <= height) return { pages: [wide], summaries: 1 };
  const page = summaryPage(parts, height);
  const summary = page ? [page] : broken(summaryParts(parts), height);
  return { pages: [...summary, ...broken(full, height)], summaries: summary.length };
}
