/**
 * A terminal brackets what is pasted between two marks (xterm control sequences, bracketed paste mode). When
 * the line breaks in the middle of a paste, the second mark never comes, and every key from then on, Ctrl-C
 * too, would be taken for more of the paste.
 */

const BEGIN = '\u001b[200~';
const END = '\u001b[201~';

/** A paste arrives in one piece, or in pieces that follow at once. */
const PATIENCE_MS = 1000;

export interface PasteSource {
  read(size?: number): unknown;
  unshift(chunk: string): void;
}

/** Calls back after so many ms; the answer takes it back. */
export type Schedule = (ms: number, work: () => void) => () => void;

/** Puts the second mark into the input when nothing more of a paste has come for a while. Returns how to stop it. */
export function endLostPastes(source: PasteSource, schedule: Schedule): () => void {
  const { read } = source;
  let tail = '';
  let cancel: (() => void) | null = null;
  const watch = (text: string) => {
    cancel?.();
    cancel = null;
    tail += text;
    const begun = tail.lastIndexOf(BEGIN);
    if (begun < 0) tail = tail.slice(1 - BEGIN.length);
    else if (tail.indexOf(END, begun) >= 0) tail = '';
    else {
      // Of a long paste only its beginning and the place where its end may stand have to be kept.
      tail = BEGIN + tail.slice(begun + BEGIN.length).slice(1 - END.length);
      cancel = schedule(PATIENCE_MS, () => {
        tail = '';
        source.unshift(END);
      });
    }
  };
  source.read = size => {
    const chunk: unknown = Reflect.apply(read, source, size === undefined ? [] : [size]);
    if (typeof chunk === 'string' || Buffer.isBuffer(chunk)) watch(String(chunk));
    return chunk;
  };
  return () => {
    cancel?.();
    source.read = read;
  };
}
