import { describe, expect, it } from 'vitest';
import type { Run } from '../../src/core/batch/state.ts';
import { HOUR, MINUTE, SECOND } from '../../src/core/time.ts';
import type { Opening } from '../../src/face/places.tsx';
import { Drive } from '../help/batch-drive.ts';
import { BEGAN_WALL, sampleHeader } from '../help/batch-kit.ts';
import { handSession } from '../help/hand-session.ts';
import { mountApp } from '../help/mount.tsx';
import type { Probe } from '../help/screen-text.ts';
import { handServices } from '../help/services.ts';
import { SIZES } from './estimate-kit.tsx';

const TIMES = { soak: 12 * HOUR };
const drive = (): Drive => new Drive(sampleHeader());

interface Moment {
  readonly name: string;
  readonly run: () => Run;
  readonly keys?: readonly string[];
  /** What this picture is for; a changed picture that lost it is no mere change of looks. */
  readonly means: Probe;
  readonly watching?: boolean;
}

const MOMENTS: readonly Moment[] = [
  { name: 'gear', run: () => drive().run, means: "The maker's manual wins" },
  {
    name: 'soak',
    run: () =>
      drive()
        .toAsk('soaking')
        .wait(TIMES.soak - 90 * MINUTE).run,
    means: 'until it may',
  },
  { name: 'kernels', run: () => drive().toAsk('kernel-centre').run, means: '2 thin white line' },
  {
    name: 'towel',
    run: () =>
      drive()
        .toAsk('towel')
        .wait(8 * SECOND).run,
    means: 'towel lies',
  },
  { name: 'portion', run: () => drive().toAsk('fill').run, means: 'bag 1 of 2' },
  {
    name: 'refused',
    run: () =>
      drive()
        .toAsk('venting')
        .wait(4 * MINUTE).run,
    keys: ['space'],
    means: '6 min more',
  },
  {
    name: 'below-target',
    run: () =>
      drive()
        .toAsk('holding')
        .wait(20 * MINUTE)
        .press('1').run,
    means: 'No time counts below',
  },
  {
    name: 'away',
    run: () =>
      drive()
        .toAsk('holding')
        .wait(20 * MINUTE)
        .gap(7 * MINUTE).run,
    means: 'Nobody watched for 7 min. What did the gauge do?',
  },
  {
    name: 'locked',
    run: () =>
      drive()
        .toAsk('gauge-zero')
        .wait(12 * MINUTE).run,
    means: 'locked: pressure',
  },
  {
    name: 'locked-told',
    run: () =>
      drive()
        .toAsk('gauge-zero')
        .wait(12 * MINUTE).run,
    keys: ['1', '2'],
    means: /Cool, locked\s[\s\S]*Touch nothing[\s\S]*there may be pressure/,
  },
  {
    name: 'night',
    run: () =>
      drive()
        .toAsk('shut')
        .wait(2 * HOUR).run,
    means: 'shut to cool',
  },
  { name: 'unload', run: () => drive().toAsk('lifted').run, means: 'Is it whole?' },
  { name: 'inoculate', run: () => drive().toAsk('inject').run, means: 'wipe the port' },
  { name: 'done', run: () => drive().toAsk('finished').run, means: '2 bags under way' },
  { name: 'watching', run: () => drive().toAsk('venting').run, means: '[WATCHING]', watching: true },
];

/** The same words wherever a narrow screen breaks them. */
const flat = (means: Probe): Probe =>
  typeof means === 'string' ? screen => screen.text.replace(/\s+/g, ' ').includes(means) : means;

const name = (of: string, columns: number, rows: number): string =>
  `./frames/run/${of}-${columns}x${rows}.txt`;
const page = (lines: readonly string[]): string =>
  `${lines
    .map(line => line.trimEnd())
    .join('\n')
    .trimEnd()}\n`;

async function shown({ run, keys = [], watching = false }: Moment, columns: number, rows: number) {
  const session = handSession(run(), watching ? 'watching' : 'running');
  const app = await mountApp({ screen: 'run', session }, { columns, rows });
  for (const key of keys) await app.press(key);
  return app;
}

describe.each(SIZES)('the run at %ix%i', (columns, rows) => {
  it.each(MOMENTS.map(moment => [moment.name, moment] as const))('%s', async (_, moment) => {
    const app = await shown(moment, columns, rows);
    const screen = await app.until(flat(moment.means), String(moment.means));
    expect(screen.head).toMatch(/Rye|WATCHING/);
    // A finished batch asks nothing, and a copy that watches takes no answers.
    expect(screen.answers === '').toBe(['done', 'watching'].includes(moment.name));
    expect(screen.tools).toMatch(/leave|home/);
    // What is said is said to its end, and the way out of a wait stands there where there is one.
    expect(page(app.lines().slice(1))).not.toContain('…');
    if (screen.tools.includes('numbers')) expect(screen.tools).toMatch(/e end/);
    await expect(page(app.lines())).toMatchFileSnapshot(name(moment.name, columns, rows));
  });
});

const HOLD = () =>
  drive()
    .toAsk('holding')
    .wait(20 * MINUTE).run;
const PANELS: readonly Moment[] = [
  { name: 'amount', run: HOLD, keys: ['4'], means: 'How much?' },
  { name: 'trouble', run: HOLD, keys: ['t'], means: 'Trouble: what has happened?' },
  { name: 'ending', run: HOLD, keys: ['e'], means: 'asks for a typed word' },
  { name: 'word', run: HOLD, keys: ['e', '1', 's', 'h'], means: 'short and Enter sh_' },
  { name: 'undo', run: HOLD, keys: ['u'], means: 'No lock gets shorter' },
  { name: 'help', run: HOLD, keys: ['?'], means: 'the plain "done" of a step' },
  { name: 'wiped', run: HOLD, keys: ['w'], means: 'Unlock with w, then Enter' },
  { name: 'leaving', run: HOLD, keys: ['q'], means: 'The batch goes on without it' },
];

describe.each(SIZES.slice(0, 2))('panels at %ix%i', (columns, rows) => {
  it.each(PANELS.map(panel => [panel.name, panel] as const))('%s', async (_, panel) => {
    const app = await shown(panel, columns, rows);
    await app.until(flat(panel.means), String(panel.means));
    await expect(page(app.lines())).toMatchFileSnapshot(name(`panel-${panel.name}`, columns, rows));
  });
});

describe.each(SIZES)('before the run at %ix%i', (columns, rows) => {
  const open = { id: '2613b', batch: HOLD().batch, says: [] };
  const broken = { id: '2613c', batch: null, says: ['Its first line is damaged.'] };
  const bad = { name: 'mine', own: true, recipe: null, problems: ['mine.yaml:3:7 expected a mass'] };
  const PLACES: readonly (readonly [string, Opening, Probe])[] = [
    ['home', { screen: 'home', says: null }, /go on .*2613b.*\n.*Rye in bags/],
    ['kitchen', { screen: 'kitchen' }, 'assumed'],
    ['batches', { screen: 'batches' }, 'Its first line is damaged.'],
    ['welcome', { screen: 'welcome' }, 'question 1 of'],
  ];
  it.each(PLACES)('%s', async (of, opening, means) => {
    const services = handServices({
      batches: [open, broken],
      recipes: [{ name: 'rye-bags', own: false, recipe: sampleHeader().recipe, problems: [] }, bad],
    });
    const app = await mountApp(opening, { columns, rows, services });
    await app.until(means);
    // The kitchen says the whole question of the chosen line above its list.
    if (of !== 'kitchen') expect(page(app.lines())).not.toContain('…');
    await expect(page(app.lines())).toMatchFileSnapshot(name(of, columns, rows));
  });
});

it('the frames are of an evening in March', () => {
  expect(new Date(BEGAN_WALL).toISOString()).toBe('2026-03-28T18:00:00.000Z');
});
