import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import type { Batch } from '../../src/core/batch/state.ts';
import { MINUTE } from '../../src/core/time.ts';
import { stove } from '../core/estimate/stove-kit.ts';
import { asciiLook, panelOf, regions, screenOf, SIZES } from './estimate-kit.tsx';

const held = () => {
  const here = stove({ dips: 'make up' }).toClimb();
  here
    .wait(4 * MINUTE)
    .answer('reading', 60)
    .wait(4 * MINUTE)
    .answer('reading', 104);
  return here
    .wait(25 * MINUTE)
    .answer('reading', 106)
    .wait(4 * MINUTE);
};

/** Moments at the stove worth a picture. */
const MOMENTS: Readonly<Record<string, () => Batch>> = {
  climb: () =>
    stove()
      .toClimb()
      .wait(3 * MINUTE)
      .answer('reading', 45)
      .wait(2 * MINUTE)
      .answer('reading', 75).batch,
  hold: () => held().batch,
  dip: () =>
    held()
      .answer('reading', 80)
      .wait(3 * MINUTE).batch,
  away: () => held().gap(22 * MINUTE).batch,
  over: () =>
    held()
      .until(batch => batch.step === 'heat-off')
      .wait(7 * MINUTE).batch,
  locked: () =>
    held()
      .to('cool')
      .wait(10 * MINUTE)
      .answer('reading', 70)
      .wait(10 * MINUTE)
      .answer('reading', 45).batch,
  shut: () =>
    held()
      .toAsk('shut')
      .wait(90 * MINUTE).batch,
};

describe.each(Object.keys(MOMENTS))('%s', name => {
  const batch = (MOMENTS[name] ?? held)() as Batch;

  it.each(SIZES)('as a picture at %ix%i', async (columns, rows) => {
    const lines = screenOf(batch, columns, rows);
    expect(lines).toHaveLength(rows);
    for (const line of lines) expect(stringWidth(line), line).toBeLessThanOrEqual(columns);
    await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot(`frames/stove/${name}-${columns}x${rows}.txt`);
  });

  it.each(SIZES)(
    'in plain characters at %ix%i has nothing above ASCII but the signs of units',
    (columns, rows) => {
      const text = screenOf(batch, columns, rows, asciiLook).join('\n');
      expect(text.replace(/[°²×⁻⁷·…↑↓←→]/gu, '')).toMatch(/^[\n -~]*$/);
    },
  );
});

describe('what has to stand on the screen', () => {
  const text = (name: string, columns = 80, rows = 24) =>
    screenOf((MOMENTS[name] ?? held)() as Batch, columns, rows).join('\n');

  it('at 80x24 the hold has big digits, the plot and the figures with their bands', () => {
    const shown = text('hold');
    expect(shown).toMatch(/█/);
    expect(shown).toMatch(/[⠁-⣿]{4}/);
    expect(shown).toMatch(/centre +\d+ °C \(\d+ to \d+\)/);
    expect(shown).toMatch(/F0 at end +[\d.]+ \([\d.]+ to [\d.]+\)/);
    expect(shown).toMatch(/off \d\d:\d\d/);
    expect(shown).toMatch(/reading +15\.4 psi \(4 min ago\)/);
  });
  it('a reading of hours ago is told to its end', () => {
    const here = stove().toClimb();
    here.wait(4 * MINUTE).answer('at');
    const lines = screenOf(here.wait(84 * MINUTE).batch, 80, 24).join('\n');
    expect(lines).toMatch(/reading +at target \(84 min ago\)/);
  });
  it('at 60x18 there are figures and no plot', () => {
    const shown = text('hold', 60, 18);
    expect(shown).toMatch(/centre +\d+ °C \(\d+ to \d+\)/);
    expect(shown).not.toMatch(/[⠁-⣿]/);
  });
  it('pictures of the answers join the plot where there is room', () => {
    // Each picture stands over its key; without pictures the keys are only in the key line.
    const named = (columns: number, rows: number) =>
      text('hold', columns, rows).match(/1 below target/g)?.length;
    expect([named(80, 24), named(120, 40), named(160, 50)]).toEqual([1, 2, 2]);
  });
  it('beside each answer about unseen time stands what it means', () => {
    for (const [columns, rows] of SIZES) {
      expect(text('away', columns, rows).match(/min left, to \d\d:\d\d/g), `${columns}`).toHaveLength(4);
    }
  });
  it('a dip and a flame left on are said, the lock tells when', () => {
    expect(text('dip')).toMatch(/Below target: more flame now/);
    expect(text('over')).toMatch(/7 min over\. About .+ of water left/);
    expect(text('locked')).toMatch(/Zero gauge about \d\d:\d\d .*by your readings/s);
    expect(text('shut')).toMatch(/Middle of the bags\s+at 30 °C about/);
    expect(text('shut')).toMatch(/under vacuum/);
  });
});

describe('panels', () => {
  const batch = held().batch;
  const here = held()
    .answer('reading', 80)
    .wait(5 * MINUTE)
    .answer('at');
  here.measure(80);

  it.each(SIZES)('numbers at %ix%i: every page fits, and all of them say everything', (columns, rows) => {
    const { height, width } = regions(columns, rows).body;
    const pages = Array.from({ length: 12 }, (_, page) =>
      panelOf(here.batch, { kind: 'numbers', page }, columns, rows),
    );
    for (const lines of pages) {
      expect(lines.length).toBeLessThanOrEqual(height);
      for (const line of lines) expect(stringWidth(line), line).toBeLessThanOrEqual(width);
    }
    const all = pages.flat().join(' ').replace(/\s+/g, ' ');
    for (const part of [
      /Chamber about/,
      /Dip at/,
      /Thermometer in the middle/,
      /Pure steam/,
      /nobody measured it/,
      /no proof/,
    ])
      expect(all).toMatch(part);
  });

  it('the causes of no climb come in order, at most four keys at a time', () => {
    const climbing = stove().toClimb().wait(MINUTE).batch;
    const first = panelOf(climbing, { kind: 'causes', of: 'will-not-climb', page: 0 }).join('\n');
    const second = panelOf(climbing, { kind: 'causes', of: 'will-not-climb', page: 1 }).join('\n');
    expect(first).toMatch(
      /1 +the valve was opened[\s\S]*2 +the lid or gasket hisses[\s\S]*3 +water low[\s\S]*4 +none of these/,
    );
    expect(second).toMatch(/1 +the flame is too weak[\s\S]*2 +the gauge sticks/);
    expect(second).toMatch(/4 +none of these: from the beginning/);
  });

  it('pictures, the thermometer and where it is held', () => {
    expect(panelOf(batch, { kind: 'pictures' }).join('\n')).toMatch(/1 below target/);
    expect(panelOf(batch, { kind: 'where' }).join('\n')).toMatch(
      /1 {2}in the middle[\s\S]*2 {2}against the outside/,
    );
    expect(panelOf(batch, { kind: 'measure', of: 'centre', text: '63.5', fresh: false }).join('\n')).toMatch(
      /°C/,
    );
  });
});
