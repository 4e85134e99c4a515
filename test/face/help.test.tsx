import { describe, expect, it } from 'vitest';
import type { Opening } from '../../src/face/places.tsx';
import { KEYMAP, type Place } from '../../src/face/keymap.ts';
import { BEGAN_WALL } from '../help/batch-kit.ts';
import { drivenBatch, homeHeader } from '../help/record-home.ts';
import { mountApp } from '../help/mount.tsx';
import { handServices, RYE } from '../help/services.ts';
import { recordStage } from './record-kit.tsx';

const [one, two] = [drivenBatch(homeHeader('2613a')), drivenBatch(homeHeader('2614a'))];
const after = (place: Extract<Opening, { screen: 'after' }>['place']): Opening => ({
  screen: 'after',
  place,
  from: 'home',
});

/** Every screen of the program that is not a batch under way, and a place whose keys its help must name. */
const SCREENS: readonly (readonly [string, Opening, Place])[] = [
  ['welcome', { screen: 'welcome' }, 'welcome'],
  ['home', { screen: 'home', says: null }, 'home'],
  ['kitchen', { screen: 'kitchen' }, 'list'],
  ['batches', { screen: 'batches' }, 'batches'],
  ['sheet', { screen: 'sheet', choice: RYE }, 'sheet'],
  ['due', after({ at: 'due' }), 'due'],
  ['record', after({ at: 'record' }), 'record'],
  ['bags', after({ at: 'bags', batch: '2613a' }), 'bags'],
  ['next time', after({ at: 'next', batch: '2613a' }), 'next'],
  ['compare', after({ at: 'compare', left: '2613a', right: '2614a' }), 'compare'],
];

describe('help', () => {
  it.each(SCREENS)(
    'of %s names its keys, and any other key gives the screen back',
    async (_, opening, place) => {
      const stage = recordStage([one, two], BEGAN_WALL);
      const services = Object.assign(handServices(), { after: stage.after });
      const app = await mountApp(opening, { services, columns: 60, rows: 18 });
      const before = await app.until(
        screen => screen.tools.includes('? help') && !/reading/.test(screen.text),
      );
      await app.press('?');
      let seen = await app.until(/Keys/);
      let text = seen.text;
      const pages = Number(/page \d of (\d)/.exec(seen.text)?.[1] ?? 1);
      for (let page = 2; page <= pages; page += 1) {
        await app.press('?');
        seen = await app.until(`page ${page} of ${pages}`);
        text += seen.text;
      }
      const flat = text.replace(/\s+/g, ' ');
      const first = KEYMAP.find(row => row.place === place);
      expect(flat).toContain(first?.says.split(' ').slice(0, 3).join(' '));
      await app.press('x');
      expect((await app.until(screen => screen.text === before.text)).text).toBe(before.text);
    },
  );
});
