import { expect, it } from 'vitest';
import { KITCHEN_FIELDS } from '../../src/core/kitchen-fields.ts';
import { mountApp } from '../help/mount.tsx';

it.each([
  [60, 18],
  [80, 24],
])(
  'the kitchen at %ix%i says how many lines there are above and below, and no question loses its end',
  async (columns, rows) => {
    const app = await mountApp({ screen: 'kitchen' }, { columns, rows });
    await app.until('more below');
    const values = (): number => app.lines().filter(line => /^ [› ] \S.* {2}\S/.test(line)).length;
    expect(app.screen().text).toContain(`${KITCHEN_FIELDS.length - values()} more below`);
    for (const field of KITCHEN_FIELDS) {
      const whole = field.asks.replace(/ \(.*\)$/, '');
      await app.until(screen => screen.text.includes(whole), whole);
      await app.press('down');
    }
    await app.until('more above');
    expect(app.screen().text).not.toContain('more below');
    expect(app.screen().text).toContain('Price of the gear');
  },
);
