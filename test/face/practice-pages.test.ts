import { describe, expect, it } from 'vitest';
import type { Units } from '../../src/core/kitchen.ts';
import { type Debrief, debriefOf } from '../../src/core/practice/debrief.ts';
import type { FaultId } from '../../src/core/practice/faults.ts';
import type { Mistake } from '../../src/core/practice/mistakes.ts';
import { playThrough } from '../../src/core/practice/trainee.ts';
import { METRIC } from '../../src/core/quantity-format.ts';
import { FAULT_WORDS, LOSS_SHORT, LOSS_WORDS } from '../../src/core/words/practice.ts';
import { CELL, DECISION_NAMES, decisionCell, NEXT_WORDS } from '../../src/core/words/practice-decisions.ts';
import { outcomeRows } from '../../src/core/words/practice-numbers.ts';
import { debriefPages } from '../../src/face/practice-pages.ts';
import { rowText } from '../../src/face/spans.ts';
import { plannedPractice, practiceOf, shippedRecipes } from '../help/practice-kit.ts';
import { asciiLook, plainLook } from './practice-kit.tsx';

const IMPERIAL: Units = { mass: 'lb', volume: 'qt', pressure: 'psi', temperature: 'F', length: 'in' };
const EVERY_MISTAKE: readonly Mistake[] = [
  'no-look',
  'grain-by-clock',
  'wet-grain',
  'no-vent',
  'early-hold',
  'open-early',
  'torn-kept',
  'warm-inoculation',
];

/** Practices by what went wrong: all of it, a good deal, one thing, nothing, and one that was given up. */
const CASES: Readonly<Record<string, readonly [readonly FaultId[], readonly Mistake[]]>> = {
  'nothing wrong': [[], []],
  'a fault that was caught': [['torn-bag'], []],
  'one thing wrong': [['gauge-high'], ['no-look']],
  'four things wrong': [
    ['gas-out', 'torn-bag'],
    ['unwatched', 'torn-kept', 'undercook', 'warm-inoculation'],
  ],
  'all wrong': [['gauge-high', 'stubborn-grain'], EVERY_MISTAKE],
  'given up': [['blocked-vent'], ['no-look']],
};

const SIZES = [
  [60, 18],
  [80, 24],
  [120, 40],
  [160, 50],
] as const;

function worth(
  recipe: number,
  [faults, mistakes]: readonly [readonly FaultId[], readonly Mistake[]],
): Debrief {
  const [first] = shippedRecipes;
  const practice = plannedPractice(shippedRecipes[recipe] ?? (first as typeof first & object), 3, faults);
  playThrough(practice, mistakes);
  return debriefOf(practice);
}

function pages(debrief: Debrief, columns: number, rows: number, units: Units, look = plainLook) {
  const telling = { units, clock: String };
  const made = debriefPages({ debrief, telling, look, notes: [], width: columns - 2 }, rows - 6);
  return { ...made, texts: made.pages.map(page => page.map(rowText)) };
}

/** What the first page or pages must tell. */
function expectAllTold(text: string, debrief: Debrief, units: Units, about: string): void {
  const said = text.replaceAll(/\s+/g, ' ');
  const telling = { units, clock: String };
  for (const { id, verdict } of debrief.decisions) {
    expect(said, about).toContain(DECISION_NAMES[id]);
    if (verdict !== 'right') expect(said, about).toMatch(new RegExp(`${DECISION_NAMES[id]} ${verdict}`));
  }
  for (const id of debrief.lost) {
    expect(said.includes(LOSS_SHORT[id]) || said.includes(LOSS_WORDS[id]), `${about}: ${id}`).toBe(true);
  }
  for (const [name, value] of outcomeRows(debrief.numbers, telling))
    expect(said, about).toContain(`${name} ${value}`);
  for (const { id } of debrief.faults) expect(said, about).toContain(FAULT_WORDS[id].name);
  expect(said, about).toContain(
    debrief.next === null ? 'Practise next: a fault' : `Practise next: ${NEXT_WORDS[debrief.next]}`,
  );
}

describe('the debrief', () => {
  for (const [name, wrong] of Object.entries(CASES)) {
    it(`stands on one page at 80 by 24: ${name}`, () => {
      for (const recipe of shippedRecipes.keys()) {
        const debrief = worth(recipe, wrong);
        for (const units of [METRIC, IMPERIAL]) {
          const { texts, summaries } = pages(debrief, 80, 24, units);
          expect(summaries, name).toBe(1);
          expectAllTold(texts[0]?.join('\n') ?? '', debrief, units, name);
        }
      }
    });
  }

  it('tells all before it tells anything again, and cuts nothing, at every size', () => {
    for (const [name, wrong] of Object.entries(CASES)) {
      const debrief = worth(3, wrong);
      for (const [columns, rows] of SIZES) {
        for (const look of [plainLook, asciiLook]) {
          const { texts, summaries } = pages(debrief, columns, rows, METRIC, look);
          const about = `${name} at ${columns}x${rows}`;
          for (const page of texts) expect(page.length, about).toBeLessThanOrEqual(rows - 6);
          for (const line of texts.flat())
            expect([...line].length, `${about}: ${line}`).toBeLessThan(columns - 1);
          expect(texts.flat().join(), about).not.toContain('…');
          if (columns < 160)
            expectAllTold(texts.slice(0, summaries).flat().join('\n'), debrief, METRIC, about);
          else expect(texts.length, about).toBe(1);
        }
      }
    }
  });

  it('puts what cost most first where it takes more than a page', () => {
    const debrief = worth(3, CASES['all wrong'] ?? [[], []]);
    const { texts, summaries } = pages(debrief, 60, 18, METRIC);
    expect(summaries).toBeGreaterThan(1);
    const first = texts[0]?.join('\n') ?? '';
    const gravest = debrief.decisions.find(({ id }) => id === debrief.next);
    expect(first.split('! ')[1]).toContain(gravest && DECISION_NAMES[gravest.id]);
    expect(first).not.toContain(DECISION_NAMES.pot);
  });

  it('ticks once for every load what was right in all of them, and fits on the page', () => {
    const practice = practiceOf(7, [], { soak: false, loads: [3, 3] });
    playThrough(practice);
    const debrief = debriefOf(practice);
    expect(Math.max(...debrief.decisions.map(({ load }) => load))).toBe(2);
    const { texts, summaries } = pages(debrief, 80, 24, METRIC);
    expect(summaries).toBe(1);
    expect(texts[0]?.join('\n')).toMatch(/✓✓ valve shut .*✓✓ heat off|✓✓ valve shut/);
  });

  it('has a cell for every decision that is no longer than its column', () => {
    for (const wrong of Object.values(CASES)) {
      for (const units of [METRIC, IMPERIAL]) {
        for (const decision of worth(1, wrong).decisions)
          expect([...decisionCell(decision, { units, clock: String })].length).toBeLessThanOrEqual(CELL);
      }
    }
  });
});
