/** Sentences broken into lines of a given width, so that a screen knows how high it is before it is drawn. */

/** Greedy wrap at spaces; a word longer than the width is cut. Never an empty list. */
export function wrapLines(text: string, width: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    let rest = word;
    while ([...rest].length > width) {
      if (line !== '') lines.push(line);
      line = '';
      const cut = [...rest].slice(0, width).join('');
      lines.push(cut);
      rest = rest.slice(cut.length);
    }
    const joined = line === '' ? rest : `${line} ${rest}`;
    if ([...joined].length > width) {
      lines.push(line);
      line = rest;
    } else {
      line = joined;
    }
  }
  lines.push(line);
  return lines;
}

/** At most `most` lines; the last one says by an ellipsis that something is missing. */
export function wrapAtMost(text: string, width: number, most: number): readonly string[] {
  const lines = wrapLines(text, width);
  if (lines.length <= most) return lines;
  const last = [...(lines[most - 1] ?? '')].slice(0, Math.max(0, width - 1)).join('');
  return [...lines.slice(0, Math.max(0, most - 1)), `${last}…`].slice(0, most);
}

/** Whole words only, first without what stands in brackets at its end; an ellipsis says that words are missing. */
export function fitWords(text: string, width: number, ellipsis: string): string {
  if ([...text].length <= width) return text;
  const bare = text.replace(/ \(.*\)$/, '');
  if ([...bare].length <= width) return bare;
  return `${wrapLines(bare, width - [...ellipsis].length)[0] ?? ''}${ellipsis}`;
}

/** Exactly so wide: filled up with blanks, or cut with an ellipsis. */
export function fitted(text: string, width: number, ellipsis: string): string {
  const letters = [...text];
  return (letters.length > width ? [...letters.slice(0, width - 1), ellipsis] : letters)
    .join('')
    .padEnd(width);
}
