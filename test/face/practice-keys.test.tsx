import { render } from 'ink-testing-library';
import { afterEach, describe, expect, it } from 'vitest';
import { keyBytes } from '../help/screen-text.ts';
import { stage, type Stage, type StageWishes } from './practice-kit.tsx';

const open: { unmount: () => void }[] = [];
afterEach(() => {
  for (const app of open.splice(0)) app.unmount();
});

/** Everything that is waiting in this turn of the event loop has been drawn. */
const drawn = (): Promise<void> => new Promise(resolve => setImmediate(resolve));

async function play(wishes: StageWishes = {}) {
  const made: Stage = stage(wishes);
  const app = render(made.view(100, 40));
  Object.assign(app.stdout, { rows: 60 });
  open.push(app);
  await drawn();
  const tap = async (every: number, ...keys: string[]) => {
    for (const key of keys) {
      made.steady += every;
      app.stdin.write(keyBytes(key));
      await drawn();
      await drawn();
    }
  };
  return {
    made,
    screen: () => app.lastFrame() ?? '',
    live: async (ms: number) => {
      made.live(ms);
      await drawn();
    },
    tap,
    press: (...keys: string[]) => tap(2000, ...keys),
  };
}

describe('keys of a practice', () => {
  it('l looks at one thing after the other, only when it is pressed', async () => {
    const { screen, press } = await play({ faults: ['gauge-high'] });
    expect(screen()).not.toContain('the gasket');
    await press('l');
    expect(screen()).toContain('the gasket');
    await press('l');
    expect(screen()).toContain('the vent pipe');
    await press('l');
    expect(screen()).toContain('2 psi');
    await press('l');
    expect(screen()).toContain('the gasket');
  });

  it('presses of + and - at the tempo of fingers all count, and nothing is said of them', async () => {
    const { made, screen, tap } = await play();
    await tap(250, '+', '+', '+', '+', '-');
    expect(made.session.knob).toBe(3);
    expect(screen()).not.toContain('was taken once');
    await tap(250, 'l', 'l');
    expect(screen()).toContain('was taken once');
  });

  it('+ and - turn the flame, one by one, and say when they cannot', async () => {
    const { made, screen, press } = await play();
    await press('-');
    expect(screen()).toContain('The flame is off.');
    await press('+', '+', '-');
    expect(made.session.knob).toBe(1);
    expect(screen()).toMatch(/flame/);
  });

  it('s changes the speed, or lets time go on when it was slowed', async () => {
    const { made, screen, press, live } = await play();
    expect(screen()).toContain('slowed to 5x');
    expect(screen()).toContain('s on to 60x');
    await press('s');
    expect(screen()).toContain('time runs 60x');
    expect(screen()).toContain('s on to 240x');
    await press('s');
    expect(made.session.speed).toBe(240);
    await live(1000);
    expect(made.session.second).toBe(240);
  });

  it('answers the coach as in a real batch, and refuses what a real batch refuses', async () => {
    const { made, screen, press } = await play();
    await press('space', 'space');
    expect(made.session.run.batch.step).toBe('simmer');
    expect(screen()).toContain('the pot');
    await press('z');
    expect(screen()).toContain('Not now: the flame is on.');
    for (let turns = 0; turns < 10; turns += 1) await press('-');
    await press('z');
    expect(screen()).toContain('Not now: there is nothing to sleep through.');
    const venting = await play({ until: 'venting' });
    await venting.press('space');
    expect(venting.screen()).toContain('Air is still leaving');
  });

  it('lets nobody touch or see anything while the phone keeps them', async () => {
    const { made, screen, press, live } = await play({ faults: ['phone-call'], until: 'holding' });
    while (made.session.awayS === null) made.practice.pass(10);
    await live(200);
    expect(screen()).toContain('The phone rang');
    const { knob } = made.practice;
    expect(screen().split('\n')[2]).not.toContain('psi');
    await press('+');
    expect(made.practice.knob).toBe(knob);
    expect(screen()).toContain('The phone rang');
    for (let turn = 0; turn < 60 && made.session.awayS !== null; turn += 1) await live(1000);
    await live(200);
    // Nothing said to a key hides it.
    expect(screen()).toContain('You are back at the stove. Nobody watched meanwhile.');
    expect(screen().split('\n')[2]).toContain('psi');
  });

  it('leaves after asking, and says that nothing is kept', async () => {
    const { made, screen, press } = await play();
    await press('q');
    expect(screen()).toContain('nothing of it is kept');
    await press('q');
    expect(made.leaves).toBe(1);
    expect(made.kept).toEqual([]);
  });

  it('ends in the debrief, notes it once, and begins the same or another', async () => {
    const { made, screen, press } = await play({ until: 'finished', wish: { faults: ['none'] } });
    expect(screen()).toContain('debrief');
    expect(screen()).toContain('The batch came through.');
    expect(made.kept.length).toBe(1);
    // The practice just ended counts among those so far.
    expect(screen()).toContain('1 practice; it came through');
    await press('r', 'n', 'q');
    expect(made.again).toEqual([{ faults: ['none'], seed: 7 }, { faults: ['none'] }]);
    expect(made.leaves).toBe(1);
    expect(made.kept.length).toBe(1);
  });

  it('S9: everything that opens over it is marked as practice as well', async () => {
    for (const key of ['t', 'n', 'm', 'p', 'u', 'e', '?', 'q']) {
      const { screen, press } = await play({ until: 'holding' });
      const before = screen();
      await press(key);
      expect(screen(), key).not.toBe(before);
      expect(screen().split('\n')[0], key).toContain('[PRACTICE]');
    }
  });

  it('a demo takes no answers, and q ends it at once', async () => {
    const { made, screen, press } = await play({ wish: { auto: true } });
    await press('space');
    expect(screen()).toContain('It plays by itself');
    expect(made.session.run.batch.step).toBe('gear');
    await press('q');
    expect(made.leaves).toBe(1);
  });

  it('the lesson says what to press', async () => {
    const { screen, press } = await play({ wish: { lesson: true } });
    expect(screen()).toContain('l looks: ring, then pipe, then gauge');
    await press('space');
    expect(screen()).toContain('The clock runs till it bubbles.');
  });
});
