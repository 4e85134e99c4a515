/**
 * Text from a file, a name or the command line is text: nothing in it may steer the terminal. Whatever
 * could is replaced by something that can be seen.
 */

// C0 and C1 controls and DEL (ECMA-48); line and paragraph separators; bidirectional controls (Unicode
// UAX #9) and other characters without any shape, which would let two different names look alike.
// ZWJ and ZWNJ stay: emoji and several scripts need them.
const unseen =
  /[\u0000-\u001f\u007f-\u009f\u00ad\u061c\u180e\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]|[\u{e0000}-\u{e007f}]/gu;
const unseenButLines =
  /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u00ad\u061c\u180e\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]|[\u{e0000}-\u{e007f}]/gu;

/** C0 controls and DEL as their Unicode control pictures, anything else as its code. */
function shown(character: string): string {
  const code = character.codePointAt(0) ?? 0;
  if (code < 0x20) return String.fromCodePoint(0x2400 + code);
  if (code === 0x7f) return '\u2421';
  return code > 0xffff ? `\\u{${code.toString(16)}}` : `\\u${code.toString(16).padStart(4, '0')}`;
}

/** One line of text with everything unseen made visible and harmless. */
export function visible(text: string): string {
  return text.toWellFormed().replace(unseen, shown);
}

/** The same for text of several lines: line feeds stay, a tab becomes two spaces. */
export function visibleLines(text: string): string {
  const plain = text.toWellFormed().replaceAll('\r\n', '\n').replaceAll('\t', '  ');
  return plain.replace(unseenButLines, shown);
}

/**
 * A value as JSON that may be shown on a terminal: the standard leaves DEL, C1 and bidirectional controls as
 * they are, here they are escaped, which every reader takes for the same text (RFC 8259, section 7).
 */
export function visibleJson(value: unknown): string {
  const escaped = (character: string): string =>
    [...Array(character.length).keys()]
      .map(at => `\\u${character.charCodeAt(at).toString(16).padStart(4, '0')}`)
      .join('');
  return JSON.stringify(value, null, 2).replace(unseenButLines, escaped);
}

/** At most so many UTF-16 units, ending in an ellipsis when cut; never half a character. */
export function atMost(text: string, length: number): string {
  if (text.length <= length) return text;
  return `${text.slice(0, Math.max(0, length - 1)).replace(/[\ud800-\udbff]$/u, '')}…`;
}
