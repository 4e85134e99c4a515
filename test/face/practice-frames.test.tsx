import { renderToString } from 'ink';
import { render } from 'ink-testing-library';
import { describe, expect, it } from 'vitest';
import { MISTAKES } from '../../src/core/practice/mistakes.ts';
import { FAULT_WORDS, LOSS_WORDS } from '../../src/core/words/practice.ts';
import { DECISION_NAMES, NEXT_WORDS } from '../../src/core/words/practice-decisions.ts';
import { outcomeRows } from '../../src/core/words/practice-numbers.ts';
import { withDefaults } from '../../src/core/kitchen.ts';
import { asciiLook, plainLook, type Stage, stage, type StageWishes } from './practice-kit.tsx';

const SIZES = [
  [60, 18],
  [80, 24],
  [160, 50],
] as const;

/** Moments of a practice: name, what was played before, and what must stand there. */
const MOMENTS: readonly (readonly [string, StageWishes, RegExp])[] = [
  ['gear', {}, /look/],
  ['kernels', { until: 'kernel-centre' }, /cut kernel/],
  ['burst', { until: 'burst' }, /a handful/],
  ['drying', { until: 'drying' }, /spread grain/],
  ['towel', { until: 'towel' }, /the towel/],
  ['steam', { until: 'venting' }, /the vent/],
  ['climb', { until: 'climbing' }, /psi/],
  ['hold', { until: 'holding' }, /psi/],
  ['pin', { until: 'pin' }, /the lid pin/],
  ['lesson', { wish: { lesson: true } }, /l looks/],
  ['lesson hold', { until: 'holding', wish: { lesson: true } }, /press - until it shows 6/],
  ['demo', { until: 'holding', wish: { auto: true } }, /A demo/],
  ['debrief', { until: 'finished', faults: ['torn-bag'] }, /decisions right/],
  [
    'debrief-lost',
    {
      until: 'finished',
      faults: ['gas-out', 'torn-bag'],
      mistakes: ['unwatched', 'torn-kept', 'undercook', 'warm-inoculation'],
    },
    /Lost: .*chalky/,
  ],
];

function linesOf(wishes: StageWishes, columns: number, rows: number, look = plainLook): string[] {
  return renderToString(stage(wishes).view(columns, rows, look), { columns })
    .split('\n')
    .map(line => line.trimEnd());
}

/** Every page of a debrief, as Space turns them. */
async function pagesOf(made: Stage, columns: number, rows: number): Promise<readonly string[]> {
  const app = render(made.view(columns, rows));
  Object.assign(app.stdout, { rows: 60 });
  const drawn = () => new Promise(resolve => setImmediate(resolve));
  await drawn();
  const pages: string[] = [];
  for (let page = 0; page < 9 && !pages.includes(app.lastFrame() ?? ''); page += 1) {
    pages.push(app.lastFrame() ?? '');
    made.steady += 2000;
    app.stdin.write(' ');
    await drawn();
    await drawn();
  }
  app.unmount();
  return pages;
}

describe('the practice screen', () => {
  for (const [name, wishes, shows] of MOMENTS) {
    it(`${name}: fits every size, in every kind of character, and is marked as practice`, () => {
      for (const [columns, rows] of SIZES) {
        for (const look of [plainLook, asciiLook]) {
          const lines = linesOf(wishes, columns, rows, look);
          expect(lines.length, `${columns}x${rows}`).toBeLessThanOrEqual(rows);
          for (const line of lines) expect([...line].length).toBeLessThanOrEqual(columns);
          const screen = lines.join('\n');
          expect(lines[0]).toContain('[PRACTICE]');
          expect(screen).toMatch(shows);
          if (look === asciiLook) expect(screen).not.toMatch(/[█▮▯●◉✶]/);
        }
      }
    });
  }

  it('tells every decision and number at the smallest size, page by page', async () => {
    const made = stage({ until: 'finished', faults: ['torn-bag'] });
    const all = (await pagesOf(made, 60, 18)).join('\n');
    const { decisions } = made.session.debrief();
    for (const { id } of decisions) expect(all).toContain(DECISION_NAMES[id]);
    for (const name of ['air left', 'truly at target', 'water left', 'torn bag']) expect(all).toContain(name);
  });

  it('cuts no line of the debrief at any size, whatever went wrong', async () => {
    const { units } = withDefaults({}).kitchen;
    const mistakes: readonly (readonly [StageWishes['faults'], StageWishes['mistakes']])[] = [
      [['gauge-high'], ['no-look', 'wet-grain', 'open-early']],
      [
        ['gas-out', 'torn-bag'],
        ['unwatched', 'torn-kept', 'undercook', 'warm-inoculation'],
      ],
    ];
    for (const [faults, habits] of mistakes) {
      for (const [columns, rows] of SIZES) {
        const made = stage({
          until: 'finished',
          ...(faults ? { faults } : {}),
          ...(habits ? { mistakes: habits } : {}),
        });
        const debrief = made.session.debrief();
        const pages = await pagesOf(made, columns, rows);
        const all = pages.join(' ').replaceAll(/\s+/g, ' ');
        for (const page of pages) expect(page.split('\n').length).toBeLessThanOrEqual(rows);
        expect(all).not.toContain('…');
        // The last lines of a page are there too, whatever rows the keys take.
        const rest = `${outcomeRows(debrief.numbers, { units, clock: String }).at(-1)?.join(' ')}`;
        if (columns < 160) expect(all).toContain(rest);
        if (columns < 160) expect(all).toContain('hidden: ');
        for (const id of debrief.lost) expect(all).toContain(LOSS_WORDS[id].split(':')[0]);
        expect(all).toContain(`${debrief.right} of ${debrief.decisions.length} decisions right.`);
        expect(all).toContain(`Practise next: ${debrief.next && NEXT_WORDS[debrief.next]}`);
        for (const { id } of debrief.faults) {
          // On a wide terminal it stands beside the decisions, line by line.
          const { name, sign } = FAULT_WORDS[id];
          expect(all).toContain(columns < 160 ? `${name}: ${sign}` : `${name}: `);
        }
        for (const decision of debrief.decisions) {
          expect(all).toContain(DECISION_NAMES[decision.id]);
          if (decision.verdict !== 'right') expect(all).toContain('right is: ');
        }
      }
    }
  });

  it('says of every demo on one line what it shows, with its seed, at the smallest size', () => {
    for (const mistakes of [[], ['no-vent', 'no-look'], ...MISTAKES.map(id => [id])]) {
      const lines = linesOf({ wish: { auto: true, mistakes } }, 60, 18);
      expect(lines[0]).toContain('seed 0007');
      expect(lines.at(-4)).toMatch(/^ A demo.* q ends it\.$/);
    }
  });

  it('looks as it did at 80 by 24', async () => {
    for (const name of ['kernels', 'hold', 'debrief', 'debrief-lost'] as const) {
      const wishes = MOMENTS.find(([known]) => known === name)?.[1] ?? {};
      const picture = `${linesOf(wishes, 80, 24).join('\n')}\n`;
      await expect(picture).toMatchFileSnapshot(`frames/practice-${name}-80x24.txt`);
    }
  });

  it('never says which answer is right', () => {
    for (const until of ['kernel-centre', 'towel', 'holding'] as const) {
      const screen = linesOf({ until }, 160, 50).join('\n');
      expect(screen).not.toMatch(/right|wrong|correct|truth|truly/);
    }
  });

  it('says in the debrief what is an estimate, and never that anything is sterile', () => {
    const screen = linesOf({ until: 'finished' }, 160, 50).join('\n');
    expect(screen).toContain('estimate');
    expect(screen).toMatch(/centre F0, estimate +\d+ min \(\d+ to \d+\)/);
    expect(screen).not.toContain('sterile');
  });
});
