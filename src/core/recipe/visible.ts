/** Text from files made safe to show: what a terminal would obey is spelled out instead. */

// C0 and C1 controls, DEL, bidirectional marks, overrides and isolates, line and paragraph separators, BOM.
const HIDDEN = /[\u0000-\u001f\u007f-\u009f\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff\p{Cs}]/gu;

/** True when the text holds a character that acts on a terminal instead of being shown; `allowed` are let through. */
export function hasHidden(text: string, allowed = ''): boolean {
  return (text.match(HIDDEN) ?? []).some(character => !allowed.includes(character));
}

/** Every hidden character spelled as an escape: "\x1b[31m" for a colour sequence. */
export function showHidden(text: string): string {
  return text.replace(HIDDEN, character => {
    const code = character.charCodeAt(0);
    return code < 0x100
      ? `\\x${code.toString(16).padStart(2, '0')}`
      : `\\u${code.toString(16).padStart(4, '0')}`;
  });
}

/** First line of a text, at most `most` characters, hidden characters spelled out. */
export function excerpt(text: string, most = 60): string {
  const line = text.trim().split(/\r?\n/, 1)[0] ?? '';
  const shown = showHidden(line.slice(0, most + 1));
  return shown.length > most ? `${shown.slice(0, most)}…` : shown;
}
