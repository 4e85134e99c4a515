import { renderToString } from 'ink';
import { render } from 'ink-testing-library';
import { describe, expect, it } from 'vitest';
import { DECISION_NAMES } from '../../src/core/words/practice.ts';
import { asciiLook, plainLook, stage, type StageWishes } from './practice-kit.tsx';

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
  ['debrief', { until: 'finished', faults: ['torn-bag'] }, /decisions right/],
];

function linesOf(wishes: StageWishes, columns: number, rows: number, look = plainLook): string[] {
  return renderToString(stage(wishes).view(columns, rows, look), { columns })
    .split('\n')
    .map(line => line.trimEnd());
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
    const app = render(made.view(60, 18));
    Object.assign(app.stdout, { rows: 60 });
    const drawn = () => new Promise(resolve => setImmediate(resolve));
    await drawn();
    let all = '';
    for (let page = 0; page < 6; page += 1) {
      all += app.lastFrame() ?? '';
      made.steady += 2000;
      app.stdin.write(' ');
      await drawn();
      await drawn();
    }
    app.unmount();
    const { decisions } = made.session.debrief();
    for (const { id } of decisions) expect(all).toContain(DECISION_NAMES[id]);
    for (const name of ['air left', 'truly at target', 'water left', 'torn bag']) expect(all).toContain(name);
  });

  it('looks as it did at 80 by 24', async () => {
    for (const name of ['kernels', 'hold', 'debrief'] as const) {
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
