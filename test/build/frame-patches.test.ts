import { join } from 'node:path';
import headless from '@xterm/headless';
import { build } from 'esbuild';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { FRAME_PATCHES } from '../../src/build/frame-patches.ts';
import { patches } from '../../src/build/patches.ts';

interface Screen {
  write(x: number, y: number, text: string, options: { transformers: readonly unknown[] }): void;
  clip(clip: object): void;
  unclip(): void;
  get(): { readonly output: string; readonly height: number };
}
interface Ink {
  readonly Output: new (size: { width: number; height: number }) => Screen;
  readonly sanitizeAnsi: (text: string) => string;
  readonly logUpdate: {
    create(stream: object, options: { incremental: boolean; showCursor: boolean }): (frame: string) => void;
  };
}

const INK = join(import.meta.dirname, '../../node_modules/ink/build');

async function inkWith(plugins: Parameters<typeof build>[0]['plugins']): Promise<Ink> {
  const contents = `export { default as Output } from ${JSON.stringify(join(INK, 'output.js'))};
    export { default as sanitizeAnsi } from ${JSON.stringify(join(INK, 'sanitize-ansi.js'))};
    export { default as logUpdate } from ${JSON.stringify(join(INK, 'log-update.js'))};`;
  const { outputFiles } = await build({
    stdin: { contents, resolveDir: INK },
    bundle: true,
    format: 'esm',
    platform: 'node',
    // Some of it asks for Node's own modules in the old way.
    banner: { js: "import { createRequire } from 'node:module'; const require = createRequire('file:///');" },
    write: false,
    ...(plugins ? { plugins } : {}),
  });
  const text = outputFiles?.[0]?.text ?? '';
  return (await import(`data:text/javascript;base64,${Buffer.from(text).toString('base64')}`)) as Ink;
}

// Few words, so that lines come again from frame to frame, as they do on a screen.
const word = fc.constantFrom(
  'rye',
  'left of 86 min',
  '▄██',
  '⢰⠉⠉',
  '  ',
  '種',
  'é',
  '👩‍🌾',
  'a\nb',
  '\u200b',
  '1',
  '',
);
const style = fc.constantFrom('', '1', '2', '38;5;31', '48;5;244', '38;2;1;2;3', '7', '22', '39', '0', '4:3');
const text = fc
  .array(fc.tuple(style, word), { maxLength: 5 })
  .map(parts =>
    parts.map(([code, says]) => (code === '' ? says : `\u001b[${code}m${says}\u001b[0m`)).join(''),
  );
const cell = fc.integer({ min: -3, max: 24 });
const write = fc.record({ x: cell, y: fc.integer({ min: -1, max: 6 }), text });
const clip = fc.record({ x1: cell, x2: cell, y1: cell, y2: cell });
const frame = fc.array(fc.record({ clip: fc.option(clip), writes: fc.array(write, { maxLength: 6 }) }), {
  maxLength: 4,
});
type Frame = typeof frame extends fc.Arbitrary<infer Value> ? Value : never;

/** Texts come to it clean, as from Ink's own nodes. */
function draw({ Output, sanitizeAnsi }: Ink, groups: Frame): string {
  const output = new Output({ width: 20, height: 5 });
  for (const { clip: cut, writes } of groups) {
    if (cut) output.clip(cut);
    for (const { x, y, text: says } of writes) output.write(x, y, sanitizeAnsi(says), { transformers: [] });
    if (cut) output.unclip();
  }
  return output.get().output;
}

describe('Ink with the patches of its frames draws what Ink draws', () => {
  let plain: Ink;
  let quick: Ink;
  beforeAll(async () => {
    plain = await inkWith(undefined);
    quick = await inkWith([patches(FRAME_PATCHES)]);
  });

  it('frame after frame, of any texts, styles and edges', () => {
    let lines = 0;
    fc.assert(
      fc.property(fc.array(frame, { minLength: 1, maxLength: 6 }), frames => {
        for (const groups of frames) {
          const drawn = draw(plain, groups);
          lines += drawn.trim() === '' ? 0 : 1;
          expect(draw(quick, groups)).toBe(drawn);
        }
      }),
      { numRuns: 1500 },
    );
    expect(lines).toBeGreaterThan(1000);
  });

  it('after more lines than are kept', () => {
    const many = Array.from(
      { length: 1200 },
      (_, line) => `line \u001b[${30 + (line % 8)}m${line}\u001b[39m`,
    );
    for (const says of [...many, ...many.slice(0, 50)]) {
      const groups: Frame = [{ clip: null, writes: [{ x: 1, y: 2, text: says }] }];
      expect(draw(quick, groups)).toBe(draw(plain, groups));
    }
  });

  it('rows that change here and there stand on the terminal as Ink writes them, in fewer bytes', async () => {
    const ink = (code: string, says: string, end: string) => `\u001b[${code}m${says}\u001b[${end}m`;
    const part = fc.constantFrom(
      '',
      '  ',
      'rye',
      '11:42',
      ink('1', '▄██', '22'),
      ink('1', '█ ▄', '22'),
      ink('48;5;31', '   ', '49'),
      ink('7', 'no', '27'),
      '種',
      '  to the look',
    );
    const row = fc.array(part, { maxLength: 3 }).map(parts => parts.join('').trimEnd());
    // Always so many rows, as on a screen that is filled.
    const frames = fc.array(fc.array(row, { minLength: 12, maxLength: 12 }), { minLength: 2, maxLength: 5 });
    let [bytes, bytesOfInk] = [0, 0];
    await fc.assert(
      fc.asyncProperty(frames, async drawn => {
        const shown = async ({ logUpdate }: Ink) => {
          let written = '';
          const stream = { columns: 20, write: (text: string) => (written += text) };
          const draw = logUpdate.create(stream, { incremental: true, showCursor: true });
          for (const rows of drawn) draw(rows.join('\n'));
          const terminal = new headless.Terminal({
            cols: 20,
            rows: 12,
            convertEol: true,
            allowProposedApi: true,
          });
          await new Promise<void>(done => terminal.write(written, done));
          const buffer = terminal.buffer.active;
          const lines = Array.from({ length: 12 }, (_, y) => {
            const line = buffer.getLine(y);
            return Array.from({ length: 20 }, (__, x) => {
              const cell = line?.getCell(x);
              return [cell?.getChars() || ' ', cell?.isBold(), cell?.isInverse(), cell?.getBgColor()].join();
            });
          });
          return { lines, at: [buffer.cursorX, buffer.cursorY], bytes: Buffer.byteLength(written) };
        };
        const [inks, ours] = [await shown(plain), await shown(quick)];
        expect([ours.lines, ours.at]).toEqual([inks.lines, inks.at]);
        bytes += ours.bytes;
        bytesOfInk += inks.bytes;
      }),
      { numRuns: 200 },
    );
    expect(bytes).toBeLessThan(bytesOfInk);
  });

  it('any text is cleaned the same, the first time and the second', () => {
    const odd = fc.string({
      unit: fc.constantFrom('a', '\u001b', '[', 'm', '3', ';', ']', '\u0007', '\u009b', '\u0301', '\n'),
    });
    fc.assert(
      fc.property(odd, says => {
        const cleaned = plain.sanitizeAnsi(says);
        expect(quick.sanitizeAnsi(says)).toBe(cleaned);
        expect(quick.sanitizeAnsi(says)).toBe(cleaned);
      }),
      { numRuns: 3000 },
    );
  });
});
