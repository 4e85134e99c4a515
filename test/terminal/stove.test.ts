import { readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { Grower } from '../help/grower.ts';
import { newHome, type Pty } from '../help/pty.ts';
import { meets, type Probe } from '../help/screen-text.ts';
import { StoryClock } from '../help/story-clock.ts';
import { terminal } from '../help/terminal.ts';

/** A small batch that makes up for dips, with a hold long enough for a bad evening. */
const RECIPE = `name: Wheat, made up
grain: wheat
containers:
  count: 2
  fill: 500 g
  most: 600 g
  size: 13 x 10 x 6 cm
soak: no
vent: 10 min
pressure: 15 psi
hold: 150 min
dips: make up
culture:
  form: liquid culture
  species: oyster
  each: 3 ml
`;

const eventsOf = (home: string): Record<string, unknown>[] => {
  const folder = join(home, 'batches');
  const name = readdirSync(folder).find(entry => entry.endsWith('.batch')) ?? '';
  return [...readFileSync(join(folder, name), 'utf8').matchAll(/"event":(\{.*?\})(?=,"uptime")/g)].map(
    ([, text]) => JSON.parse(text ?? 'null') as Record<string, unknown>,
  );
};

/** Degrees in the middle that stand on the screen: the thermometer of this story agrees with the estimate. */
const centreOn = (pty: Pty): string => /centre +(\d+) °C/.exec(pty.screen().text)?.[1] ?? '';

/** Presses again what a busy machine took for a towel on the keyboard. */
async function insists(grower: Grower, key: string, then: Probe): Promise<void> {
  for (let tries = 0; tries < 5; tries += 1) {
    const seen = await grower.presses(key, screen => meets(screen, then) || /taken/.test(screen.notice));
    if (meets(seen, then)) return;
  }
  throw new Error(`${key} was never taken`);
}

async function types(grower: Grower, number: string, then: Probe): Promise<void> {
  for (const digit of number) await grower.presses(digit);
  await insists(grower, 'enter', then);
}

async function probes(grower: Grower, pty: Pty): Promise<void> {
  const celsius = centreOn(pty);
  await insists(grower, 'm', 'Thermometer in the middle');
  await types(grower, celsius, /centre +\d/);
}

/** Hours of kitchen work in seconds; at the stove slow enough for a finger. */
const QUICK = 3600;
const AT_THE_STOVE = 150;

it('three dips, one gap and a thermometer in a bag', async () => {
  const home = newHome();
  onTestFinished(() => rmSync(home, { recursive: true, force: true }));
  const recipe = join(home, 'made-up.yaml');
  writeFileSync(recipe, RECIPE);
  const clock = new StoryClock(QUICK);
  let pty = terminal(['run', recipe], { home, env: clock.env });
  await pty.ready();
  let grower = new Grower(pty);
  /** The battery dies; the story's clock runs on, from now at another pace. */
  const powerCut = async (pace: number) => {
    pty.kill('SIGKILL');
    await pty.exit;
    clock.pace(pace);
    pty = terminal([], { home, env: clock.env });
    await pty.ready();
    grower = new Grower(pty);
  };
  await grower.presses('space', 'all there');
  await grower.to('Load');
  await powerCut(AT_THE_STOVE);

  await grower.to('Climb');
  await insists(grower, '4', 'How much?');
  await types(grower, '9', /reading +9 psi/);
  await grower.to('Hold');
  await probes(grower, pty);
  for (const dip of [1, 2, 3]) {
    await grower.sees(screen => Number(/centre +(\d+)/.exec(screen.text)?.[1]) > 60 + 10 * dip, `dip ${dip}`);
    await insists(grower, '1', 'No time counts below');
    await insists(grower, '2', /Dip at [^:]+:\d\d: \d+ min below target/);
    await probes(grower, pty);
  }

  await powerCut(AT_THE_STOVE);
  await grower.sees('What did the gauge do?');
  // Beside every answer stands what it would mean.
  expect(pty.screen().text.match(/min left, to|hold is over/g)).toHaveLength(4);
  await insists(grower, '3', /Dip at [^:]+:\d\d: up to \d+ min below target/);

  await insists(grower, 'n', /Numbers \(1 of/);
  const first = pty.screen().text;
  await insists(grower, 'n', 'Numbers (2 of');
  const said = `${first} ${pty.screen().text}`.replace(/\s+/g, ' ');
  expect(said.match(/Dip at/g)?.length).toBeGreaterThanOrEqual(4);
  expect(said).toMatch(/as your thermometer showed in this load/);
  await insists(grower, 'esc', 'left of');

  await powerCut(QUICK);
  await grower.sees('What did the gauge do?');
  await insists(grower, '2', screen => !screen.text.includes('What did the gauge do?'));
  await grower.to('Done');
  await grower.sees(/k keeps\s+it\s+for\s+the\s+next\s+plan/);
  await insists(grower, 'k', 'the next plan counts with yours');

  const { kitchen } = JSON.parse(readFileSync(join(home, 'settings.json'), 'utf8')) as {
    kitchen: { measuredDiffusivity: Record<string, number> };
  };
  // The thermometer said what the estimate said some minutes before, so it measured a little less than 3e-7 m2/s.
  expect(kitchen.measuredDiffusivity['bag 13x10x6']).toBeGreaterThan(2.1e-7);
  expect(kitchen.measuredDiffusivity['bag 13x10x6']).toBeLessThan(3.2e-7);
  const events = eventsOf(home);
  expect(events.filter(({ type }) => type === 'measured')).toHaveLength(4);
  expect(events.filter(({ dipCost }) => dipCost !== undefined)).toHaveLength(4);
}, 300_000);
