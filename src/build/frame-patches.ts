/**
 * Patches of the way from a text to the frame on the terminal, for the time from a key to its frame, the
 * processor time and the bytes of a countdown and the memory after a night: what `kept.ts` keeps is not
 * worked out again.
 */
import { fileURLToPath } from 'node:url';

export interface Patch {
  /** Ending of the file's path inside node_modules. */
  readonly file: string;
  readonly why: string;
  readonly imports?: string;
  /** Each text must stand in the file exactly once. */
  readonly swaps: readonly (readonly [from: string, to: string])[];
}

const KEPT = fileURLToPath(new URL('kept.ts', import.meta.url));
const SEGMENTER = fileURLToPath(new URL('segmenter.ts', import.meta.url));
const kept = (...names: readonly string[]): string =>
  `import { ${names.join(', ')} } from ${JSON.stringify(KEPT)};\n`;
export const FRAME_PATCHES: readonly Patch[] = [
  {
    file: '@alcalzone/ansi-tokenize/build/styledChars.js',
    why: 'cells of one style share it, and how one style becomes another is worked out once',
    imports: kept('oneOfEach', 'rememberingPairs'),
    swaps: [
      ['reduceAnsiCodesIncremental(codes, [token])', 'oneStyle(reduceAnsiCodesIncremental(codes, [token]))'],
      ['styles: [...codes],', 'styles: codes,'],
      ['    let codes = [];', '    let codes = none;'],
      [
        'ansiCodesToString(diffAnsiCodes(chars[i - 1].styles, char.styles))',
        'change(chars[i - 1].styles, char.styles)',
      ],
      ['ansiCodesToString(diffAnsiCodes(char.styles, []))', 'change(char.styles, none)'],
      [
        'export function styledCharsFromTokens(',
        `const none = [];
const oneStyle = oneOfEach(500);
const change = rememberingPairs((from, to) => ansiCodesToString(diffAnsiCodes(from, to)), 500);
export function styledCharsFromTokens(`,
      ],
    ],
  },
  {
    file: 'ink/build/output.js',
    why: 'a line that was on the last frame is not taken apart into cells and put together again',
    imports: kept('keptCaches', 'rowTexts'),
    swaps: [
      ['caches = new OutputCaches();', 'caches = caches();'],
      [
        'export default class Output {',
        `const caches = keptCaches(() => new OutputCaches(), 500, 4000);
const blank = { type: 'char', value: ' ', fullWidth: false, styles: [] };
const rowText = rowTexts(cells => styledCharsToString(cells.filter(item => item !== undefined)).trimEnd());
export default class Output {`,
      ],
      // A text that fits is cut nowhere.
      [
        'return this.sliceLineToColumns(line, from, to);',
        'return from === 0 && to === width ? line : this.sliceLineToColumns(line, from, to);',
      ],
      [
        `const row = [];
            for (let x = 0; x < this.width; x++) {
                row.push({
                    type: 'char',
                    value: ' ',
                    fullWidth: false,
                    styles: [],
                });
            }
            output.push(row);`,
        'output.push(new Array(this.width).fill(blank));',
      ],
      [
        `.map(line => {
            // See https://github.com/vadimdemedes/ink/pull/564#issuecomment-1637022742
            const lineWithoutEmptyItems = line.filter(item => item !== undefined);
            return styledCharsToString(lineWithoutEmptyItems).trimEnd();
        })`,
        '.map(rowText)',
      ],
      // The lines of a text, without styles that end in the next line.
      [
        `const characterLines = [[]];
        for (const character of this.caches.getStyledChars(text)) {
            if (character.value === '\\n') {
                characterLines.push([]);
            }
            else {
                characterLines.at(-1).push(character);
            }
        }
        let lines = characterLines.map(line => styledCharsToString(line));`,
        'let lines = this.caches.getLines(text);',
      ],
      [
        '    getStringWidth(text) {',
        `    lines = new Map();
    getLines(text) {
        let cached = this.lines.get(text);
        if (cached === undefined) {
            const rows = [[]];
            for (const character of this.getStyledChars(text)) {
                if (character.value === '\\n') rows.push([]);
                else rows.at(-1).push(character);
            }
            cached = rows.map(row => styledCharsToString(row));
            this.lines.set(text, cached);
        }
        return cached;
    }
    getStringWidth(text) {`,
      ],
    ],
  },
  {
    file: 'ink/build/sanitize-ansi.js',
    why: 'each text of a frame is cleaned two or three times, and nearly all of them were on the last frame',
    imports: kept('remembering'),
    swaps: [
      ['const sanitizeAnsi = (text) => {', 'const sanitizeAnsi = remembering((text) => {'],
      ['return output + pendingStyles;\n};', 'return output + pendingStyles;\n}, 1000);'],
    ],
  },
  {
    file: 'ink/build/log-update.js',
    why: 'most lines of a frame are passed over, which takes one sequence for all of them instead of one each',
    imports: kept('shortMoves'),
    swaps: [["stream.write(buffer.join(''));", "stream.write(shortMoves(buffer.join('')));"]],
  },
  {
    file: 'ink/build/line-update.js',
    why: 'of a line of which a part has changed only that part is written, as long as before; no break rules are loaded',
    imports: `${kept('changedPart')}import { graphemeSegmenter } from ${JSON.stringify(SEGMENTER)};\n`,
    swaps: [
      ["new Intl.Segmenter(undefined, { granularity: 'grapheme' })", 'graphemeSegmenter'],
      [
        `ansiEscapes.eraseEndLine +
        styles +
        next.slice(offset);`,
        'changedPart(previous.slice(offset), next.slice(offset), styles, ansiEscapes.eraseEndLine);',
      ],
    ],
  },
];
