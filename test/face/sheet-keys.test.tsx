import { render } from 'ink-testing-library';
import { afterEach, describe, expect, it } from 'vitest';
import { SheetScreen } from '../../src/face/screens/sheet.tsx';
import { Drive } from '../help/batch-drive.ts';
import { sampleHeader } from '../help/batch-kit.ts';
import { keyBytes } from '../help/screen-text.ts';
import { shipped } from '../help/plan-kit.ts';
import { stage, type Stage, type StageWishes } from './sheet-kit.tsx';

/** What was said of the kitchen, so that nothing weighty is assumed. */
const said = { altitudeM: 640, markedMaxKPa: 124, minimumWaterL: 2 };

/** A hold that is an hour too short for the likely estimate (science notes e8: 79 min at sea level). */
const short = { ...shipped('Rye'), holdS: 30 * 60 };

const open: { unmount: () => void }[] = [];
afterEach(() => {
  for (const app of open.splice(0)) app.unmount();
});

interface Played {
  readonly stage: Stage;
  readonly screen: () => string;
  readonly press: (...keys: string[]) => Promise<void>;
}

/** Everything that is waiting in this turn of the event loop has been drawn. */
const drawn = (): Promise<void> => new Promise(resolve => setImmediate(resolve));

async function play(wishes: StageWishes = {}): Promise<Played> {
  const made = stage(wishes);
  const app = render(<SheetScreen {...made.props} />);
  // Without rows Ink asks the real terminal for its size at every frame.
  Object.assign(app.stdout, { rows: 60 });
  open.push(app);
  await drawn();
  return {
    stage: made,
    screen: () => app.lastFrame() ?? '',
    press: async (...keys) => {
      for (const key of keys) {
        made.steady += 2000;
        app.stdin.write(key === 'tab' ? '\t' : keyBytes(key));
        await drawn();
        await drawn();
      }
    },
  };
}

describe('what-if on the screen', () => {
  it('moves the whole sheet at once', async () => {
    const { screen, press } = await play();
    expect(screen()).toMatch(/weigh +3\.55 kg/);
    await press('right');
    // 7 kg at 48 % from 12 %: 7 x 0.52 / 0.88 = 4.136 kg (science notes h).
    expect(screen()).toMatch(/containers +‹ 7 bags ›/);
    expect(screen()).toMatch(/weigh +4\.14 kg/);
    await press('left');
    expect(screen()).toMatch(/weigh +3\.55 kg/);
  });

  it('goes down to the altitude, where the gauge stays and the hold grows', async () => {
    const { screen, press } = await play();
    await press('down', 'down', 'right', 'right');
    expect(screen()).toMatch(/altitude +‹ 800 m ›/);
    expect(screen()).toMatch(/gauge +15 psi/);
    expect(screen()).toMatch(/hold +10[1-9] min/);
  });

  it('shows a shorter hold as too short, in words', async () => {
    const { screen, press } = await play({ kitchen: { altitudeM: 0, markedMaxKPa: 124, minimumWaterL: 2 } });
    await press('down', 'down', 'down', ...Array.from({ length: 6 }, () => 'left'));
    expect(screen()).toMatch(/hold +‹ 1 h ›/);
    expect(screen()).toMatch(/The hold is short: F0 \d/);
  });
});

describe('beginning', () => {
  it('by Space begins the recipe as it is when nothing was moved', async () => {
    const { stage: made, press } = await play({ kitchen: said });
    await press('space');
    expect(made.begun).toEqual([shipped('Rye')]);
    expect(made.saved).toEqual([]);
  });

  it('begins with the values shown, and keeps the altitude in the kitchen', async () => {
    const { stage: made, press } = await play();
    // Seven bags are one more than the cooker takes: that is read first.
    await press('right', 'down', 'down', 'right', 'down', 'right', 'space', 'space');
    expect(made.begun).toHaveLength(1);
    expect(made.begun[0]).toMatchObject({ name: 'Rye, six 1 kg bags, changed', holdS: 95 * 60 });
    expect(made.begun[0]?.containers.count).toBe(7);
    expect(made.saved).toEqual([{ altitudeM: 700, stationKPa: null }]);
  });

  it('does not begin when the altitude cannot be kept', async () => {
    const { stage: made, screen, press } = await play({ kitchen: said, refusesToSave: 'The disk is full.' });
    await press('down', 'down', 'right', 'space');
    expect(made.begun).toEqual([]);
    expect(screen()).toContain('The disk is full.');
  });

  it('is refused with the reason when the plan says no, however often Space is pressed', async () => {
    const { stage: made, screen, press } = await play({ kitchen: { cookerInnerHeightM: 0.12 } });
    expect(screen()).toContain('Space why the plan says no');
    await press('space');
    expect(screen()).toContain('No: not even one bag fits the cooker.');
    expect(screen()).toMatch(/Fill less into each, take smaller bags/);
    expect(screen()).not.toContain('begin all the same');
    await press('space', 'space', 'space', 'enter', 'space', 'enter', 'space');
    expect(made.begun).toEqual([]);
    expect(made.saved).toEqual([]);
  });

  it('with warnings to read shows them first, whole, and begins with the next Space', async () => {
    const { stage: made, screen, press } = await play({ recipe: short });
    expect(screen()).toContain('Space warnings, then begin');
    await press('space');
    expect(made.begun).toEqual([]);
    for (const part of ['The hold is short: F0', 'Heat needs longer', 'Add '])
      expect(screen()).toContain(part);
    expect(screen()).toContain('Space begin all the same');
    await press('space');
    expect(made.begun).toEqual([short]);
  });

  it('shows what is assumed once before it begins, and again when that is something else', async () => {
    const { stage: made, screen, press } = await play({ columns: 60, rows: 18, refusesToSave: 'Disk full.' });
    await press('space');
    expect(made.begun).toEqual([]);
    const told = screen().replaceAll(/\s+/g, ' ');
    expect(told).toContain('Assumed: 640 m above the sea, a cooker marked 18 psi, at least 2 L of water.');
    await press('left', 'down', 'down', 'right', 'space');
    // The altitude was moved, so it is said; the other two are not.
    expect(screen().replaceAll(/\s+/g, ' ')).toContain('Assumed: a cooker marked 18 psi, at least 2 L');
    await press('space');
    expect(screen()).toContain('Disk full.');
    await press('space');
    expect(screen()).not.toContain('Before this batch begins');
    await press('left', 'left', 'space');
    expect(screen()).toContain('Before this batch begins');
  });

  it('warnings that fill more than the screen are paged through before it begins', async () => {
    const {
      stage: made,
      screen,
      press,
    } = await play({
      columns: 60,
      rows: 18,
      recipe: { ...short, ventS: 120, wantedMoisture: 0.6 },
    });
    await press('space');
    expect(screen()).toContain('page 1 of ');
    const pages = Number(/page 1 of (\d)/.exec(screen())?.[1]);
    expect(pages).toBeGreaterThan(1);
    for (let page = 1; page < pages; page += 1) await press('space');
    expect(made.begun).toEqual([]);
    expect(screen()).toContain(`page ${pages} of ${pages}`);
    await press('space');
    expect(made.begun).toHaveLength(1);
  });

  it('any other key leaves the warnings, which then count as unread; a held Space does not pass them', async () => {
    const { stage: made, screen, press } = await play({ recipe: short });
    await press('space', 'left');
    expect(screen()).toMatch(/containers +‹ 6 bags ›/);
    await press('space');
    made.steady -= 1700; // 300 ms after the one before: a bounce, or a key held down
    await press('space');
    expect(made.begun).toEqual([]);
    expect(screen()).toContain('begin all the same');
  });
});

describe('help', () => {
  it('opens by "?" on every page with keys and signs, and goes without changing anything', async () => {
    const { stage: made, screen, press } = await play();
    for (const before of [[], ['tab'], ['tab']]) {
      await press(...before);
      const under = screen();
      await press('?');
      expect(screen()).toContain('Keys and signs of the plan sheet');
      for (const part of ['change the chosen line', 'it is assumed', 'minutes at 121.1 °C'])
        expect(screen()).toContain(part);
      await press('space');
      expect(screen()).toBe(under);
    }
    expect(made.backs).toBe(0);
    expect(made.begun).toEqual([]);
  });

  it('has as many pages as it takes on a small screen', async () => {
    const { screen, press } = await play({ columns: 60, rows: 18 });
    await press('?');
    expect(screen()).toContain('page 1 of 2');
    await press('?');
    expect(screen()).toContain('page 2 of 2');
    expect(screen()).toContain('waits at night');
    await press('?');
    expect(screen()).not.toContain('Keys and signs');
  });
});

describe('pages', () => {
  it('follow one another by Tab, and the times move by half hours', async () => {
    const { screen, press } = await play();
    await press('tab');
    expect(screen()).toContain('ready to inoculate');
    expect(screen()).toMatch(/begin +‹ 18:30 ›/);
    await press('right', 'right');
    expect(screen()).toMatch(/begin +‹ 19:30 ›/);
    await press('tab');
    expect(screen()).toContain('Look out for');
    await press('down');
    expect(screen()).not.toContain('Look out for');
    await press('tab');
    expect(screen()).toMatch(/containers +‹ 6 bags ›/);
  });

  it('lays the times back from "ready to inoculate", and says when that is too late', async () => {
    const { screen, press } = await play();
    await press('tab', 'down', 'right', 'right', 'right');
    expect(screen()).toMatch(/ready to inoculate +‹ Fri 09:00 ›/);
    await press(...Array.from({ length: 30 }, () => 'left'));
    expect(screen()).toMatch(/Too late for that: it would have had to begin/);
  });

  it('scroll where the steps do not fit, so that the last one can be read', async () => {
    const { screen, press } = await play({ columns: 60, rows: 18 });
    await press('tab');
    expect(screen()).not.toMatch(/ Inoculate /);
    await press('down', 'down', 'down');
    expect(screen()).toMatch(/ Inoculate /);
  });

  it('are left by q without beginning anything', async () => {
    const { stage: made, press } = await play();
    await press('tab', 'q');
    expect(made.backs).toBe(1);
    expect(made.begun).toEqual([]);
  });
});

describe('a batch that is under way', () => {
  const choice = (drive: Drive) => ({ id: '2613a', batch: drive.batch, says: [] });
  it('is named before another one is begun beside it, and a finished one is not', async () => {
    const going = new Drive(sampleHeader({ soak: false })).to('vent');
    expect((await play({ batches: [choice(going)] })).screen()).toMatch(/Batch 2613a is under way/);
    const done = new Drive(sampleHeader({ soak: false })).to('done');
    expect((await play({ batches: [choice(done)] })).screen()).not.toMatch(/under way/);
  });
});
