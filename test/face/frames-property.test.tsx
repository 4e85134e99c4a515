import fc from 'fast-check';
import { renderToString } from 'ink';
import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import type { BatchHeader } from '../../src/core/batch/state.ts';
import { HOUR, MINUTE, SECOND } from '../../src/core/time.ts';
import { lookFor } from '../../src/face/look.ts';
import { regionsFor } from '../../src/face/regions.ts';
import { ASKING, type Panel, pressOnRun } from '../../src/face/run-keys.ts';
import { PanelScreen } from '../../src/face/screens/panels.tsx';
import { RunController } from '../../src/face/screens/run-controller.tsx';
import { tellingOf } from '../../src/face/format.ts';
import { Drive } from '../help/batch-drive.ts';
import { VARIANTS } from '../help/batch-kit.ts';
import { handSession } from '../help/hand-session.ts';
import { mountApp } from '../help/mount.tsx';
import { handServices } from '../help/services.ts';

/** Names that people and attackers give: graphemes of any script, wide ones, and what steers a terminal (ECMA-48). */
const HOSTILE = [
  '\u001b[2J\u001b[H',
  '\u001b]0;title\u0007',
  '\u001bP1$r\u001b\\',
  '\u009b31m',
  '\r\n\n',
  '\t\b\b\b',
  '\u202eABC',
  '\u0000',
  '\u001b[?1049l',
  '\u001b[6n',
];
const text = fc.oneof(
  fc.string({ unit: 'grapheme', maxLength: 120 }),
  fc.string({ unit: fc.constantFrom('穀', '菌', '한', 'ｗ', '👩‍🌾', '🇮🇹', 'é', 'ﷺ', ' '), maxLength: 80 }),
  fc
    .array(fc.oneof(fc.constantFrom(...HOSTILE), fc.string({ maxLength: 12 })), { maxLength: 8 })
    .map(parts => parts.join('')),
);
const KEYS = ['space', '1', '2', '3', '4', 't', 'e', 'u', 'w', '?', 'q', 'n', 'p', 'm', 'esc', 'enter', 'up'];
const act = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom(...KEYS) },
  { weight: 4, arbitrary: fc.integer({ min: 1, max: 20 }) },
  {
    weight: 2,
    arbitrary: fc.constantFrom(5 * SECOND, 3 * MINUTE, 47 * MINUTE, 11 * HOUR).map(ms => ({ waits: ms })),
  },
  { weight: 1, arbitrary: fc.constantFrom(2 * MINUTE, 9 * HOUR).map(ms => ({ away: ms })) },
);

interface State {
  readonly drive: Drive;
  readonly panel: Panel;
}
/** Keys, time, absence and moves as planned, in any order: a number is so many moves as planned. */
function play(
  header: BatchHeader,
  acts: readonly (string | number | { waits: number } | { away: number })[],
): State {
  const drive = new Drive(header);
  let panel: Panel = ASKING;
  for (const one of acts) {
    if (typeof one === 'string') {
      const pressed = pressOnRun(panel, drive.run, one, header.kitchen.units, false);
      panel = pressed.panel;
      if (pressed.deed) drive.tries(pressed.deed);
    } else if (typeof one === 'number') {
      for (let moves = 0; moves < one && drive.batch.finishedAt === null; moves += 1) drive.plannedMove();
    } else if ('waits' in one) drive.tries({ type: 'tick' }, one.waits);
    else drive.tries({ type: 'gap', why: 'asleep' }, one.away);
  }
  return { drive, panel };
}

const CONTROLS = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/;

describe('any frame of any batch', () => {
  it('S8: is never taller or wider than the terminal, and holds nothing that steers it', () => {
    const reached = new Set<string>();
    fc.assert(
      fc.property(
        fc.constantFrom(...Object.values(VARIANTS)),
        text,
        text,
        fc.array(act, { maxLength: 14 }),
        fc.integer({ min: 60, max: 210 }),
        fc.integer({ min: 18, max: 70 }),
        fc.boolean(),
        (variant, name, species, acts, columns, rows, ascii) => {
          const recipe = {
            ...variant.recipe,
            name,
            note: name,
            culture: { ...variant.recipe.culture, species },
          };
          const { drive, panel } = play({ ...variant, recipe }, acts);
          reached.add(`${drive.batch.step}/${panel.kind}`);
          const regions = regionsFor({ columns, rows });
          if (regions === 'too-small') throw new Error('not reached');
          const look = lookFor({ colour: 'none', ascii });
          const { units } = drive.batch.header.kitchen;
          const whole = renderToString(
            <RunController
              look={look}
              regions={regions}
              services={handServices()}
              session={handSession(drive.run)}
              onLeave={() => {}}
            />,
            { columns },
          );
          const over = renderToString(
            <PanelScreen
              look={look}
              regions={regions}
              batch={drive.batch}
              telling={tellingOf(drive.batch, units)}
              units={units}
              panel={panel}
            />,
            { columns: regions.body.width },
          );
          expect(whole).not.toMatch(CONTROLS);
          expect(over).not.toMatch(CONTROLS);
          const lines = whole.split('\n');
          expect(lines.length).toBeLessThanOrEqual(rows);
          for (const line of lines) expect(stringWidth(line)).toBeLessThanOrEqual(columns);
          const overLines = over.split('\n');
          expect(overLines.length, `panel ${panel.kind}`).toBeLessThanOrEqual(regions.body.height);
          for (const line of overLines) expect(stringWidth(line)).toBeLessThanOrEqual(regions.body.width);
          // The keys are the last two lines whatever stands above: nothing has pushed them out.
          expect(lines.at(-1)).toMatch(/leave|home|any key/);
        },
      ),
      { numRuns: 300 },
    );
    // A property that never gets anywhere proves nothing.
    expect(new Set([...reached].map(state => state.split('/')[0])).size).toBeGreaterThanOrEqual(12);
    expect(new Set([...reached].map(state => state.split('/')[1])).size).toBeGreaterThanOrEqual(7);
  });
});

describe('S8: names that try to steer the terminal', () => {
  const name = HOSTILE.join('name');
  const recipe = { ...(VARIANTS['soaked, bags sealed before'] as BatchHeader).recipe, name, note: name };
  const bad = { name: `bad ${name}`, own: true, recipe: null, problems: [`${name}:1:1 ${name}`] };
  const batch = new Drive({ ...(VARIANTS['soaked, bags sealed before'] as BatchHeader), recipe, id: '2613a' })
    .batch;

  it.each([
    ['home', { screen: 'home', says: null }],
    ['home with a message', { screen: 'home', says: 'a message' }],
    ['batches', { screen: 'batches' }],
    ['the sheet', { screen: 'sheet', choice: { name, own: true, recipe, problems: [] } }],
    ['the run', { screen: 'run', session: handSession(new Drive({ ...batch.header, recipe }).run) }],
  ] as const)('%s: what is written holds none of their sequences', async (_, opening) => {
    const services = handServices({
      recipes: [{ name, own: true, recipe, problems: [] }, bad],
      batches: [
        { id: '2613a', batch, says: [] },
        { id: '2613b', batch: null, says: [name] },
      ],
      marks: ['a mark'],
    });
    const app = await mountApp(opening, { services });
    await app.until(screen => screen.text.trim() !== '');
    for (const key of ['down', 'down', 'enter', 't']) await app.press(key);
    for (const sequence of HOSTILE.filter(part => part.includes('\u001b') || part.includes('\u009b'))) {
      if (sequence === '\u001b[?1049l') continue;
      expect(app.written).not.toContain(sequence);
    }
    expect(app.written).not.toMatch(/[\u0000\u0007\u0080-\u009f\u202e]/);
    // The alternate screen was not left by a name.
    expect(app.written).not.toContain('\u001b[?1049l');
  });
});
