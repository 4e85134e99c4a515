/**
 * Stands in Ink's way from a text to its cells, put there by `patches.ts`. From one second to the next nearly
 * every line of a screen is the same, and Ink takes each of them apart again for every frame. What is kept is
 * thrown away whole when it has grown large, so that hours of changing digits leave nothing behind.
 */

/** The same function, which remembers its last answers, at most so many. */
export function remembering<Answer>(work: (text: string) => Answer, most: number): (text: string) => Answer {
  const known = new Map<string, Answer>();
  return text => {
    const before = known.get(text);
    if (before !== undefined) return before;
    if (known.size >= most) known.clear();
    const answer = work(text);
    known.set(text, answer);
    return answer;
  };
}

interface Caches {
  readonly styledChars: { readonly size: number };
  readonly widths: { readonly size: number };
}

/** The same caches from frame to frame, until they hold more than so many lines or widths. */
export function keptCaches<Kept extends Caches>(make: () => Kept, lines: number, widths: number): () => Kept {
  let kept = make();
  return () => {
    if (kept.styledChars.size > lines || kept.widths.size > widths) kept = make();
    return kept;
  };
}
