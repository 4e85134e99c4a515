/** Everything the estimate knows, as lines for the panel behind `n` and for plain mode. */
import type { Batch } from '../core/batch/state.ts';
import { dipsOf } from '../core/estimate/dips.ts';
import { estimateAt } from '../core/estimate/estimate.ts';
import { flameAdvice } from '../core/estimate/flame.ts';
import { assumptionWords, ESTIMATE_CAUTION, estimateSentences } from '../core/words/estimate.ts';
import { dipWords, flameWords, longerHoldWords, overrunWords } from '../core/words/estimate-advice.ts';
import { coolSentences } from '../core/words/estimate-cool.ts';
import { probeWords } from '../core/words/estimate-probe.ts';
import type { Telling } from '../core/words/telling.ts';
import { wrapLines } from './wrap.ts';

/** All sentences about the load at the stove; a single one when there is nothing to estimate yet. */
export function estimateParagraphs(batch: Batch, telling: Telling): readonly string[] {
  const estimate = estimateAt(batch);
  if (!estimate) return ['Nothing to estimate yet: it begins when the flame is lit under a load.'];
  const flame = flameAdvice(batch);
  const said: readonly (string | null)[] = [
    ...estimateSentences(batch, estimate, telling),
    flame ? flameWords(batch, flame, telling) : null,
    overrunWords(batch, telling),
    ...coolSentences(batch, telling),
    ...dipsOf(batch).map(dip => dipWords(dip, telling)),
    longerHoldWords(batch),
    probeWords(batch, estimate, telling),
    ...estimate.assumes.map(assumption => assumptionWords(assumption, telling)),
    ESTIMATE_CAUTION,
  ];
  return said.filter(line => line !== null);
}

/** The paragraphs cut into pages of so many rows; never an empty list. */
export function pagesOf(
  paragraphs: readonly string[],
  width: number,
  rows: number,
): readonly (readonly string[])[] {
  const pages: string[][] = [[]];
  for (const paragraph of paragraphs) {
    const lines = wrapLines(paragraph, width - 2).map((line, index) => (index === 0 ? line : `  ${line}`));
    const page = pages.at(-1) ?? [];
    if (page.length > 0 && page.length + lines.length > rows) pages.push([...lines]);
    else page.push(...lines);
  }
  return pages;
}
