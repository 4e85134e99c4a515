import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import { type PlotOptions, type PlotPoint, plotDrawing } from '../../src/face/plot.ts';
import { type Drawing, rowText } from '../../src/face/spans.ts';

const lines = (drawing: Drawing) => drawing.map(rowText);
const MINUTE = 60_000;
const START = 21 * 60 * MINUTE;
const clock = (x: number) =>
  `${Math.floor(x / (60 * MINUTE))}:${String(Math.floor(x / MINUTE) % 60).padStart(2, '0')}`;
const curve = (f: (minute: number) => number): PlotPoint[] =>
  Array.from({ length: 201 }, (_, minute) => ({ x: START + minute * MINUTE, y: f(minute) }));

// Invented curves of the right shape; nothing here is a check of any model.
const chamber = (minute: number) => Math.min(121, 20 + 2.2 * minute);
const centre = (minute: number, slow: number) => 121 - 101 * Math.exp(-minute / slow);
const evening = (width: number, height: number, ascii: boolean): PlotOptions => ({
  width,
  height,
  ascii,
  series: [
    { points: curve(chamber), ink: 'watch', label: 'chamber' },
    { points: curve(minute => centre(minute, 60)), ink: 'accent', label: 'centre' },
    {
      points: curve(minute => Math.max(0, minute - 110) / 5),
      ink: 'good',
      axis: 'right',
      line: 'dotted',
      label: 'F0',
    },
  ],
  bands: [
    {
      ink: 'faint',
      points: curve(() => 0).map(({ x }, minute) => ({
        x,
        low: centre(minute, 85),
        high: centre(minute, 45),
      })),
    },
  ],
  marks: [
    { x: START + 46 * MINUTE, label: 'hold' },
    { x: START + 166 * MINUTE, label: 'heat off' },
  ],
  now: START + 120 * MINUTE,
  xLabels: { format: clock },
  yLabels: { unit: '°C', from: 20, to: 125, rightUnit: 'F0' },
});
const bare = (series: PlotOptions['series'], more: Partial<PlotOptions> = {}): PlotOptions => ({
  width: 40,
  height: 10,
  series,
  xLabels: { format: clock },
  yLabels: { unit: '°C' },
  ...more,
});

/** Row and column of every cell of the field with an ink. */
function inked(drawing: Drawing, ink: string): { row: number; column: number; char: string }[] {
  return drawing.flatMap((row, index) => {
    let column = 0;
    return row.flatMap(part =>
      [...part.text].flatMap(char => {
        column += 1;
        return part.ink === ink ? [{ row: index, column: column - 1, char }] : [];
      }),
    );
  });
}

describe.each([false, true])('plain characters: %s', ascii => {
  it.each([
    [24, 5],
    [40, 8],
    [60, 10],
    [80, 12],
    [80, 24],
    [120, 40],
    [150, 40],
  ])('%i by %i is filled exactly', (width, height) => {
    const drawn = lines(plotDrawing(evening(width, height, ascii)));
    expect(drawn).toHaveLength(height);
    for (const line of drawn) expect(stringWidth(line), line).toBe(width);
    for (const line of ascii ? drawn : []) expect(line.replace('°', ' ')).toMatch(/^[ -~]*$/);
  });

  it('an evening looks as it did', async () => {
    const text = [
      [80, 12],
      [40, 8],
    ]
      .map(([width = 0, height = 0]) => lines(plotDrawing(evening(width, height, ascii))).join('\n'))
      .join('\n\n');
    for (const word of ['hold', 'heat off', '22:00', 'F0', 'chamber', 'centre']) expect(text).toContain(word);
    await expect(`${text.replace(/ +$/gm, '')}\n`).toMatchFileSnapshot(
      `./frames/pictures/plot${ascii ? '-plain' : ''}.txt`,
    );
  });
});

describe('where things stand', () => {
  it('a rising line climbs from the lower left to the upper right', () => {
    const drawing = plotDrawing(
      bare([
        {
          points: [
            { x: 0, y: 0 },
            { x: 60 * MINUTE, y: 100 },
          ],
          ink: 'accent',
        },
      ]),
    );
    const cells = inked(drawing, 'accent');
    const first = cells.filter(({ column }) => column === Math.min(...cells.map(cell => cell.column)));
    const last = cells.filter(({ column }) => column === Math.max(...cells.map(cell => cell.column)));
    expect(first.map(({ row }) => row)).toContain(8);
    expect(last.map(({ row }) => row)).toContain(1);
    // Monotone: no cell further right is lower.
    for (const a of cells)
      for (const b of cells) if (a.column < b.column) expect(a.row).toBeGreaterThanOrEqual(b.row);
  });

  it('a value stands on the row of its tick', () => {
    const drawing = plotDrawing(
      bare(
        [
          {
            points: [
              { x: 0, y: 100 },
              { x: 60 * MINUTE, y: 100 },
            ],
            ink: 'accent',
          },
        ],
        {
          height: 24,
          yLabels: { unit: '°C', from: 0, to: 140 },
        },
      ),
    );
    const rows = new Set(inked(drawing, 'accent').map(({ row }) => row));
    const tickRow = lines(drawing).findIndex(line => line.startsWith('100 ┤'));
    expect(rows).toEqual(new Set([tickRow]));
  });

  it('a mark stands under its word at its time', () => {
    const drawn = lines(
      plotDrawing(
        bare([], {
          marks: [{ x: 30 * MINUTE, label: 'half' }],
          xLabels: { format: clock, from: 0, to: 60 * MINUTE },
        }),
      ),
    );
    const column = (drawn[0] ?? '').indexOf('half');
    expect(drawn.slice(1, -1).every(line => line[column] === '┊')).toBe(true);
    // Four cells of gutter; the middle of the 36 of the field is the 18th or 19th.
    expect(Math.abs(column - (40 - 36) - 17.5)).toBeLessThanOrEqual(1);
  });

  it('the present moment wins its place in the head over a word', () => {
    const [head = ''] = lines(
      plotDrawing(
        bare([], {
          marks: [{ x: 31 * MINUTE, label: 'soon' }],
          now: 30 * MINUTE,
          xLabels: { format: clock, from: 0, to: 60 * MINUTE },
        }),
      ),
    );
    expect(head).toContain('▾');
  });

  it('the band lies between its edges', () => {
    const drawing = plotDrawing(
      bare([], {
        height: 22,
        bands: [
          {
            ink: 'film',
            points: [
              { x: 0, low: 40, high: 60 },
              { x: 60 * MINUTE, low: 40, high: 60 },
            ],
          },
        ],
        yLabels: { unit: '°C', from: 0, to: 100 },
      }),
    );
    const rows = inked(drawing, 'film').map(({ row }) => row);
    // Twenty rows for 100 degrees: 60 is eight rows from the top, 40 twelve, one row of heading before.
    expect(Math.min(...rows)).toBe(9);
    expect(Math.max(...rows)).toBeLessThanOrEqual(13);
  });

  it('a value that is no number breaks the line instead of bending it', () => {
    const drawing = plotDrawing(
      bare([
        {
          points: [
            { x: 0, y: 5 },
            { x: 10 * MINUTE, y: 5 },
            { x: 30 * MINUTE, y: Number.NaN },
            { x: 50 * MINUTE, y: 5 },
            { x: 60 * MINUTE, y: 5 },
          ],
          ink: 'accent',
        },
      ]),
    );
    const columns = inked(drawing, 'accent').map(({ column }) => column);
    const gaps = columns.slice(1).map((column, index) => column - (columns[index] ?? 0));
    expect(Math.max(...gaps)).toBeGreaterThan(15);
    expect(lines(drawing).join('\n')).not.toContain('NaN');
  });
});

describe('little or no data', () => {
  it.each([
    ['no series', []],
    ['an empty series', [{ points: [], ink: 'accent' as const, label: 'none' }]],
    ['only what is no number', [{ points: [{ x: Number.NaN, y: Number.NaN }], ink: 'accent' as const }]],
  ])('%s gives the empty axes', (_, series) => {
    const drawn = lines(plotDrawing(bare(series)));
    expect(drawn).toHaveLength(10);
    expect(drawn.join('')).not.toMatch(/NaN|Infinity|[⠁-⣿]/);
  });

  it('a single point is one dot', () => {
    const cells = inked(plotDrawing(bare([{ points: [{ x: 5, y: 7 }], ink: 'accent' }])), 'accent');
    expect(cells).toHaveLength(1);
  });
});

it('a space too small is refused with both sizes', () => {
  expect(() => plotDrawing(bare([], { width: 23 }))).toThrow(
    'A plot needs at least 24 by 5 cells, not 23 by 10.',
  );
  expect(() => plotDrawing(bare([], { height: 4 }))).toThrow(RangeError);
});
