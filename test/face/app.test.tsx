import { describe, expect, it } from 'vitest';
import { App } from '../../src/face/app.tsx';
import { SAME_KEY_MS } from '../../src/face/key-guard.ts';
import { lookFor } from '../../src/face/look.ts';
import { MINUTE, SECOND } from '../../src/core/time.ts';
import { Drive } from '../help/batch-drive.ts';
import { sampleHeader } from '../help/batch-kit.ts';
import { Grower, titleOf } from '../help/grower.ts';
import { handSession, type HandSession } from '../help/hand-session.ts';
import { mount, mountApp } from '../help/mount.tsx';
import { handServices } from '../help/services.ts';

const home = { screen: 'home', says: null } as const;
const running = (session: HandSession) => ({ screen: 'run', session }) as const;

describe('from home to the first step', () => {
  it('recipe, sheet, batch: three keys', async () => {
    const app = await mountApp(home);
    await app.until('Rye in bags');
    await app.press('enter');
    await app.until('begin this batch');
    await app.press('space');
    await app.until('all there');
    expect(app.services.begun).toHaveLength(1);
  });

  it('a key held down from one screen to the next is one press', async () => {
    const app = await mountApp(home);
    await app.until('Rye in bags');
    await app.press('enter');
    await app.until('begin this batch');
    for (let repeat = 0; repeat < 40; repeat += 1) {
      app.services.steadyMs += repeat === 0 ? SAME_KEY_MS - 50 : 33;
      await app.type('\r');
    }
    expect(app.services.begun).toEqual([]);
    expect(app.screen().text).toContain('begin this batch');
  });

  it('the Enter that started the program does not choose a recipe', async () => {
    const app = await mountApp(home);
    await app.until('Rye in bags');
    await app.type('\r');
    expect(app.screen().text).not.toContain('begin this batch');
  });

  it('a batch that cannot be begun is told on the home screen', async () => {
    const app = await mountApp(home, {
      services: handServices({ beginFails: 'The disk is full.\u001b[2J' }),
    });
    await app.until('Rye in bags');
    await app.press('enter');
    await app.until('begin this batch');
    await app.press('space');
    const seen = await app.until('The disk is full.');
    expect(seen.text).toContain('What shall it be?');
    expect(app.written).not.toContain('\u001b[2J');
  });
});

describe('a terminal that takes nothing', () => {
  it('is drawn nothing until it takes again, and then everything', async () => {
    const session = handSession(sampleHeader());
    const services = handServices();
    let stuck: (free: Promise<void>) => void = () => {};
    const look = lookFor({ colour: 'none', ascii: false });
    const app = await mount(
      <App
        look={look}
        services={services}
        opening={running(session)}
        onStuck={tell => {
          stuck = tell;
          return () => {};
        }}
      />,
    );
    await app.until('all there');
    let free = () => {};
    stuck(new Promise<void>(resolve => (free = resolve)));
    await app.type('');
    const before = app.written.length;
    session.send({ type: 'answer', ask: 'gear-check', choice: 'ready' });
    await app.type('');
    expect(app.written.slice(before)).not.toMatch(/[a-z]{4}/i);
    free();
    await app.until('weighed, water on');
    // Drawn whole: the head as well.
    expect(app.written.slice(before)).toContain('step 2 of');
  });
});

describe('S5 on the run screen', () => {
  const atVent = () => {
    const drive = new Drive(sampleHeader()).toAsk('venting');
    return handSession(drive.run);
  };

  it('a towel over the keyboard does nothing, and the screen says so', async () => {
    const session = atVent();
    const app = await mountApp(running(session));
    await app.until('valve is shut');
    app.services.steadyMs += 1000;
    await app.type(' 1234teuw?q\r');
    await app.until('Several keys at once: none was taken.');
    expect(session.sent).toEqual([]);
    expect(titleOf(app.screen())).toBe('Vent');
  });

  it('a pasted answer is no answer', async () => {
    const session = atVent();
    const app = await mountApp(running(session));
    await app.until('valve is shut');
    app.services.steadyMs += 1000;
    await app.type('\u001b[200~1\r \u001b[201~');
    expect(session.sent).toEqual([]);
  });

  it('a held key answers one question', async () => {
    const session = handSession(sampleHeader());
    const app = await mountApp(running(session));
    await app.until('all there');
    app.services.steadyMs += 1000;
    await app.type(' ');
    for (let repeat = 0; repeat < 100; repeat += 1) {
      app.services.steadyMs += repeat === 0 ? 660 : 30;
      await app.type(' ');
    }
    expect(session.sent).toHaveLength(1);
    expect(titleOf(app.screen())).toBe('Weigh');
    await app.until('A held or doubled key was taken once.');
  });

  it('a refusal says why and until when', async () => {
    const session = atVent();
    const app = await mountApp(running(session));
    await app.until('valve is shut');
    await app.press('space');
    const seen = await app.until('Air is still leaving');
    expect(seen.text).toMatch(/10 min more, until \d\d:\d\d/);
  });

  it('the wiped keyboard opens by w and Enter only', async () => {
    const session = handSession(sampleHeader());
    const app = await mountApp(running(session));
    await app.until('all there');
    await app.press('w');
    await app.until('Keyboard locked');
    for (const key of ['space', '1', 'enter', 'q', 'esc', 'w', 'x', 'enter']) await app.press(key);
    expect(app.screen().text).toContain('Keyboard locked');
    expect(session.sent).toEqual([]);
    await app.press('w');
    await app.press('enter');
    await app.until('all there');
  });
});

describe('a whole batch in this process', () => {
  it('is run as planned by what stands on the screen', async () => {
    const session = handSession(sampleHeader({ soak: false }));
    const app = await mountApp(running(session));
    const grower = new Grower({
      screen: app.screen,
      press: app.press,
      // Nobody waits here: time is handed on until what is waited for is there.
      until: async (probe, what) => {
        for (let minutes = 0; minutes < 900; minutes += 1) {
          const seen = await app.until(() => true);
          if (
            typeof probe === 'string'
              ? seen.text.includes(probe)
              : probe instanceof RegExp
                ? probe.test(seen.text)
                : probe(seen)
          )
            return seen;
          session.passes(minutes < 30 ? 2 * SECOND : MINUTE);
          await app.type('');
        }
        throw new Error(`never: ${what}\n${app.screen().text}`);
      },
    });
    await grower.to('Done');
    expect(session.run.batch.deviations).toEqual([]);
    expect(session.run.batch.containers.every(({ dose }) => dose !== null)).toBe(true);
  });
});

describe('alerts', () => {
  it('ring for what is wanted, also on a terminal that is too small, where no key answers', async () => {
    const drive = new Drive(sampleHeader()).toAsk('venting');
    const session = handSession(drive.run);
    const app = await mountApp(running(session));
    await app.until('valve is shut');
    await app.resize(40, 10);
    await app.until('Too small: 60 x 18 is the least.');
    const before = app.services.alerts.length;
    session.passes(11 * MINUTE);
    await app.until(() => app.services.alerts.length > before, 'an alert');
    await app.press('space');
    expect(session.sent).toEqual([]);
    await app.resize(80, 24);
    await app.until('vented');
    await app.press('space');
    expect(session.sent).toHaveLength(1);
  });
});

describe('a watching copy', () => {
  it('says so on every frame and answers nothing', async () => {
    const session = handSession(sampleHeader(), 'watching');
    const app = await mountApp(running(session));
    const seen = await app.until('all there');
    expect(seen.head).toContain('[WATCHING]');
    for (const key of ['space', '1', 't', 'u', 'e', 'w']) await app.press(key);
    expect(session.sent).toEqual([]);
    expect(app.services.alerts).toEqual([]);
    await app.until('answer there');
  });
});
