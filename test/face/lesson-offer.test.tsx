import { describe, expect, it } from 'vitest';
import type { PracticeServices, PracticeWish } from '../../src/core/practice/session.ts';
// Loaded here, so that the first practice does not wait for it longer than a test waits.
import '../../src/face/screens/practice.tsx';
import { mountApp } from '../help/mount.tsx';
import { handServices } from '../help/services.ts';

const home = { screen: 'home', says: null } as const;
const OFFER = 'New here? l: a lesson of four minutes';

/** One home over several starts of the program: what was answered about the lesson stays answered. */
function kept() {
  const state = { answered: false, begun: [] as PracticeWish[] };
  const practice: PracticeServices = {
    begin: (_, wish) => {
      state.begun.push(wish);
      return Promise.reject(new Error('No kitchen here.'));
    },
    keep: () => null,
    notes: () => [],
    offersLesson: () => !state.answered,
    lessonAnswered: () => {
      state.answered = true;
    },
  };
  const start = async () => {
    const app = await mountApp(home, { services: Object.assign(handServices(), { practice }) });
    await app.until('Rye in bags');
    return app;
  };
  return { state, start };
}

describe('the offer of the lesson', () => {
  it('stands at every start until it is answered, however often it was seen', async () => {
    const { state, start } = kept();
    for (const keys of [[], ['down', 'up'], ['k', 'esc']]) {
      const app = await start();
      expect(app.screen().text).toContain(OFFER);
      for (const key of keys) await app.press(key);
    }
    expect(state.answered).toBe(false);
    expect((await start()).screen().text).toContain(OFFER);
  });

  it('is gone for good once it was turned down, and the key goes on working', async () => {
    const { state, start } = kept();
    const app = await start();
    await app.press('x');
    await app.until(({ text }) => !text.includes(OFFER), 'no offer');
    expect(state.answered).toBe(true);
    const next = await start();
    expect(next.screen().text).not.toContain(OFFER);
    await next.press('l');
    await next.until('No kitchen here.');
    expect(state.begun).toEqual([{ lesson: true }]);
  });

  it('is taken by its key, and by nothing else', async () => {
    const { state, start } = kept();
    const app = await start();
    await app.press('l');
    await app.until('No kitchen here.');
    expect(state).toEqual({ answered: true, begun: [{ lesson: true }] });
  });
});
