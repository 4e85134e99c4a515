/** Reads a drawn screen the way a person does: head, what to do, notice, keys. */

export interface ScreenText {
  readonly lines: readonly string[];
  readonly text: string;
  readonly head: string;
  /** Body between the rules, without the notice line. */
  readonly body: readonly string[];
  readonly notice: string;
  /** The live answers, one or two lines joined. */
  readonly answers: string;
  readonly tools: string;
}

const isRule = (line: string): boolean => /^\s*[─-]{20,}\s*$/.test(line);

/** Parts of a framed screen; a screen without a frame is all body. */
export function readScreen(drawn: readonly string[]): ScreenText {
  const lines = drawn.map(line => line.trimEnd());
  const text = lines.join('\n');
  const first = lines.findIndex(isRule);
  const last = lines.findLastIndex(isRule);
  if (first !== 1 || last <= first) {
    return { lines, text, head: '', body: lines, notice: '', answers: '', tools: '' };
  }
  const foot = lines.slice(last + 1).filter(line => line !== '');
  return {
    lines,
    text,
    head: lines[0]?.trim() ?? '',
    body: lines.slice(first + 1, last - 1),
    notice: lines[last - 1]?.trim() ?? '',
    answers: foot.slice(0, -1).join(' ').trim(),
    tools: foot.at(-1)?.trim() ?? '',
  };
}

/** What is looked for on a screen: a text, a pattern, or anything that can be told from it. */
export type Probe = string | RegExp | ((screen: ScreenText) => boolean);

export function meets(screen: ScreenText, probe: Probe): boolean {
  if (typeof probe === 'string') return screen.text.includes(probe);
  return probe instanceof RegExp ? probe.test(screen.text) : probe(screen);
}

/** A stage on which a story can be played: the built program in a terminal, or the face in this process. */
export interface Stage {
  screen(): ScreenText;
  /** Resolves with the first screen that meets the probe; rejects with the last screen seen. */
  until(probe: Probe, what?: string): Promise<ScreenText>;
  /** One press of a named key, at the pace of a finger. */
  press(key: string): Promise<void>;
}

/** What a terminal sends for a named key; any other name is sent as it is written. */
const BYTES: Readonly<Record<string, string>> = {
  space: ' ',
  enter: '\r',
  esc: '\u001b',
  up: '\u001b[A',
  down: '\u001b[B',
  right: '\u001b[C',
  left: '\u001b[D',
  backspace: '\u007f',
  'ctrl-c': '\u0003',
  'ctrl-z': '\u001a',
};
export const keyBytes = (key: string): string => BYTES[key] ?? key;
