import { describe, expect, it } from 'vitest';
import { cookerDrawing } from '../../src/face/pictures/cooker.ts';
import { dialDrawing } from '../../src/face/pictures/dial.ts';
import { COMPACT, LARGE } from '../../src/face/pictures/frame.ts';
import { handfulDrawing, kernelDrawing } from '../../src/face/pictures/kernel.ts';
import { towelDrawing } from '../../src/face/pictures/towel.ts';
import { ventDrawing } from '../../src/face/pictures/vent.ts';
import { cellsOf, lines, picture, SCALES, sizeOf } from './pictures-kit.ts';

describe('what the pictures mean', () => {
  it('a white core is a solid patch, a thin line one row of it, a translucent kernel has none', () => {
    const solid = (choice: string) =>
      cellsOf(picture('kernel-centre', choice, 'compact', false), 'core').filter(({ char }) =>
        /[▀▄█▌▐▙▟▛▜]/.test(char),
      );
    const rows = (choice: string) => new Set(solid(choice).map(({ row }) => row)).size;
    expect(rows('white-core')).toBeGreaterThanOrEqual(4);
    // One row's height, drawn as the two half rows about the middle.
    expect(new Set(solid('thin-line').map(({ char }) => char))).toEqual(new Set(['▄', '▀']));
    expect(solid('translucent')).toEqual([]);
  });

  it('the core grows with its share', () => {
    for (const size of [COMPACT, LARGE]) {
      let before = 0;
      for (let core = 0.03; core <= 1; core += 0.02) {
        const cells = cellsOf(kernelDrawing({ core }, { size, ascii: false }), 'core').length;
        expect(cells).toBeGreaterThanOrEqual(before);
        before = cells;
      }
      expect(before).toBeGreaterThan(20);
    }
  });

  it('burst kernels are counted: none, two of nine, most', () => {
    const opened = (choice: string) =>
      lines(picture('burst', choice, 'compact', true))
        .join('\n')
        .match(/\\#\//g)?.length ?? 0;
    expect(opened('none')).toBe(0);
    expect(opened('few')).toBe(2);
    expect(opened('many')).toBe(7);
  });

  it('a kernel once burst stays burst as the share grows', () => {
    const open = (burst: number) =>
      new Set(
        lines(handfulDrawing({ burst, seed: 3 }, { size: LARGE, ascii: true })).flatMap((line, row) =>
          [...line.matchAll(/%###%/g)].map(({ index }) => `${row} ${index}`),
        ),
      );
    let before = new Set<string>();
    for (let burst = 0; burst <= 1; burst += 0.05) {
      const now = open(burst);
      expect([...before].every(place => now.has(place))).toBe(true);
      before = now;
    }
    expect(open(1).size).toBe(15);
  });

  it('wet cloth is covered, dry cloth empty', () => {
    const wet = (choice: string) => cellsOf(picture('towel', choice, 'compact', false), 'water').length;
    expect(wet('soaked')).toBeGreaterThan(wet('several'));
    expect(wet('several')).toBeGreaterThan(wet('faint'));
    expect(wet('faint')).toBeGreaterThan(0);
    expect(wet('dry')).toBe(0);
    // Faint spots are pale as well as few.
    expect(
      new Set(cellsOf(picture('towel', 'faint', 'compact', false), 'water').map(({ char }) => char)),
    ).toEqual(new Set(['░']));
  });

  it('a towel never looks drier as it gets wetter', () => {
    // Weight of ink, so that pale spots count less than solid ones.
    const weight: Readonly<Record<string, number>> = { '░': 1, '▓': 4, '█': 4 };
    let before = 0;
    for (let wetness = 0; wetness <= 1; wetness += 0.05) {
      const cells = cellsOf(towelDrawing({ wetness, seed: 9 }, { size: LARGE, ascii: false }), 'water');
      const wet = cells.reduce((sum, { char }) => sum + (weight[char] ?? 2), 0);
      expect(wet).toBeGreaterThanOrEqual(before);
      before = wet;
    }
    expect(before).toBeGreaterThan(800);
  });

  it('a steady jet is unbroken from pipe to top; spurts leave a gap, at every moment', () => {
    const steamRows = (steam: number, phase: number, size: typeof COMPACT) =>
      new Set(cellsOf(ventDrawing({ steam, phase }, { size, ascii: false }), 'steam').map(({ row }) => row));
    for (const size of [COMPACT, LARGE]) {
      for (let phase = 0; phase < 3; phase += 0.05) {
        expect(steamRows(1, phase, size).size).toBe(size.height - 2);
        expect(steamRows(0, phase, size).size).toBe(0);
      }
    }
    const gaps = Array.from({ length: 20 }, (_, index) => steamRows(0.5, index / 20, LARGE).size);
    expect(Math.max(...gaps)).toBeLessThanOrEqual(LARGE.height - 2);
    expect(cellsOf(picture('steam', 'spurts', 'large', false), 'steam').length).toBeLessThan(
      cellsOf(picture('steam', 'steady', 'large', false), 'steam').length / 2,
    );
  });

  it('the needle points left below target, straight up at it, right above it', () => {
    for (const scale of SCALES) {
      const { width } = sizeOf[scale];
      const filled = (choice: string) => cellsOf(picture('gauge', choice, scale, false), 'accent').length;
      const past = (choice: string) => cellsOf(picture('gauge', choice, scale, false), 'danger').length;
      const lean = (choice: string) => {
        const needle = cellsOf(picture('gauge', choice, scale, false), 'strong').filter(
          ({ char, row }) => char !== '▼' && row > 0,
        );
        return needle.reduce((sum, { column }) => sum + column + 0.5 - width / 2, 0) / needle.length;
      };
      expect(lean('below')).toBeLessThan(-1);
      expect(Math.abs(lean('at'))).toBeLessThanOrEqual(0.5);
      expect(lean('above')).toBeGreaterThan(1);
      expect(filled('below')).toBeLessThan(filled('at'));
      expect([past('below'), past('at')]).toEqual([0, 0]);
      expect(past('above')).toBeGreaterThan(0);
    }
  });

  it('the dial fills with pressure, and shows the reading it is given', () => {
    let before = -1;
    for (const kPa of [0, 30, 60, 90, 130, 150]) {
      const drawing = dialDrawing(
        { kPa, targetKPa: 112, maxKPa: 150, units: 'psi', reading: '16.2' },
        { size: LARGE, ascii: false },
      );
      const arc = [...cellsOf(drawing, 'accent'), ...cellsOf(drawing, 'danger')].length;
      expect(arc).toBeGreaterThan(before);
      before = arc;
      expect(lines(drawing).at(-1)?.trim()).toBe('16.2 psi');
    }
    expect(before).toBeGreaterThan(25);
  });

  it('the seam is one unbroken band when good and has a hole when failed', () => {
    expect(lines(picture('seam', 'good', 'compact', false))[1]).toBe('│███████████│');
    expect(lines(picture('seam', 'failed', 'compact', false))[1]).toMatch(/^│█+╲ +╱█+│$/);
  });

  it('the pin stands above the lid when up and hangs below it when down', () => {
    const rows = (choice: string) =>
      cellsOf(picture('pin', choice, 'compact', false), 'accent').map(({ row }) => row);
    expect(Math.min(...rows('up'))).toBeLessThan(Math.min(...rows('down')));
    expect(Math.max(...rows('up'))).toBeLessThan(Math.max(...rows('down')));
  });

  it('water rises in the cooker and reaches the rack at its share', () => {
    const water = (share: number, size: typeof COMPACT) =>
      cellsOf(cookerDrawing({ water: share }, { size, ascii: false }), 'water');
    for (const size of [COMPACT, LARGE]) {
      let before = 0;
      for (let share = 0; share <= 1; share += 0.05) {
        const cells = water(share, size).length;
        expect(cells).toBeGreaterThanOrEqual(before);
        before = cells;
      }
      expect(
        lines(cookerDrawing({ water: 0.3 }, { size, ascii: true })).find(line => line.includes('TT')),
      ).not.toContain('~');
    }
  });
});
