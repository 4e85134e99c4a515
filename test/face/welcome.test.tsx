import { describe, expect, it } from 'vitest';
import { withDefaults } from '../../src/core/kitchen.ts';
import { FIRST_QUESTIONS, fieldNamed } from '../../src/core/kitchen-fields.ts';
import { mountApp } from '../help/mount.tsx';
import { handServices } from '../help/services.ts';

const welcome = { screen: 'welcome' } as const;
const keysAsked = FIRST_QUESTIONS.map(name => fieldNamed(name)?.of);

/** Presses a key, and Enters of different questions are not one held key. */
async function walk(keys: readonly string[]) {
  const app = await mountApp(welcome, { services: handServices({ kitchen: {} }) });
  await app.until('question 1 of');
  for (const key of keys) {
    app.services.steadyMs += 2000;
    await app.press(key);
  }
  return app;
}
const answers = (saved: readonly object[]) => Object.assign({}, ...saved) as object;

describe('the first questions', () => {
  it('Enter pressed through leaves every example assumed, and the list above says so', async () => {
    const app = await walk(['enter', 'y', 'enter']);
    await app.until('question 4 of');
    const lines = app.lines().map(line => line.trimEnd());
    expect(lines.find(line => line.includes('How high'))).toMatch(/640 m$/);
    expect(lines.find(line => line.includes('open pot'))).toMatch(/10 L {2}assumed$/);
    expect(app.screen().text).toContain('only an example');
    const through = await walk(FIRST_QUESTIONS.map(() => 'enter'));
    await through.until('What shall it be?');
    expect(through.services.saved).toEqual([]);
  });

  it("y on each makes what was shown the person's own: nothing of it is assumed any more", async () => {
    const app = await walk(FIRST_QUESTIONS.map(() => 'y'));
    await app.until('What shall it be?');
    const { kitchen, assumed } = withDefaults(answers(app.services.saved));
    for (const key of keysAsked) expect(key !== undefined && assumed.has(key), String(key)).toBe(false);
    // What was not asked is assumed still, and no value has changed.
    expect(assumed.has('burnerW')).toBe(true);
    expect(kitchen).toEqual(withDefaults({}).kitchen);
  });

  it('the arrow down skips one, Escape the rest: those stay assumed', async () => {
    const app = await walk(['y', 'down', 'y', 'ctrl-c']);
    await app.until('What shall it be?');
    const { assumed } = withDefaults(answers(app.services.saved));
    expect(keysAsked.map(key => key !== undefined && assumed.has(key))).toEqual(
      FIRST_QUESTIONS.map((_, index) => index !== 0 && index !== 2),
    );
  });

  it('a mark below the usual working pressure is told at once, and Enter then goes on with the lower one', async () => {
    const to = FIRST_QUESTIONS.indexOf('marked-maximum');
    const app = await walk([...Array.from({ length: to }, () => 'down'), '1', '0', 'p', 's', 'i', 'enter']);
    await app.until('Usual working pressure');
    expect(app.screen().text).toContain('The working pressure comes down to 10 psi with it');
    app.services.steadyMs += 2000;
    await app.press('enter');
    const { kitchen } = withDefaults(answers(app.services.saved));
    expect(kitchen.workingKPa).toBe(kitchen.markedMaxKPa);
    expect(kitchen.markedMaxKPa).toBeCloseTo(68.95, 1);
  });
});
