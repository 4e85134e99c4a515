import { render } from 'ink-testing-library';
import { afterEach, describe, expect, it } from 'vitest';
import { SheetScreen } from '../../src/face/screens/sheet.tsx';
import { keyBytes } from '../help/screen-text.ts';
import { shipped } from '../help/plan-kit.ts';
import { stage, type Stage, type StageWishes } from './sheet-kit.tsx';

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
    const { stage: made, press } = await play();
    await press('space');
    expect(made.begun).toEqual([shipped('Rye')]);
    expect(made.saved).toEqual([]);
  });

  it('begins with the values shown, and keeps the altitude in the kitchen', async () => {
    const { stage: made, press } = await play();
    await press('right', 'down', 'down', 'right', 'down', 'right', 'space');
    expect(made.begun).toHaveLength(1);
    expect(made.begun[0]).toMatchObject({ name: 'Rye, six 1 kg bags, changed', holdS: 95 * 60 });
    expect(made.begun[0]?.containers.count).toBe(7);
    expect(made.saved).toEqual([{ altitudeM: 700, stationKPa: null }]);
  });

  it('does not begin when the altitude cannot be kept', async () => {
    const { stage: made, screen, press } = await play({ refusesToSave: 'The disk is full.' });
    await press('down', 'down', 'right', 'space');
    expect(made.begun).toEqual([]);
    expect(screen()).toContain('The disk is full.');
  });

  it('is refused with the reason when the plan says no', async () => {
    const { stage: made, screen, press } = await play({ kitchen: { cookerInnerHeightM: 0.12 } });
    await press('space');
    expect(made.begun).toEqual([]);
    expect(screen()).toContain('No: not even one container fits the cooker. Fill less');
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
