/**
 * What a terminal can show outside its own cells: window title, progress on its tab or task bar, a desktop
 * notification. Pure functions from an environment and a text to a string of escape sequences; an unknown
 * terminal gets nothing that it might print.
 *
 * Sources: ECMA-48 (OSC, DCS, ST); xterm control sequences (OSC 0/2, CSI 22/23 t); ConEmu and Ghostty
 * documentation (OSC 9;4); iTerm2 (OSC 9), urxvt and foot (OSC 777), kitty (OSC 99) documentation; tmux(1),
 * allow-passthrough.
 */

import { atMost, visible } from '../core/text.ts';

const ESC = '\u001b';
const ST = `${ESC}\\`;

export type Environment = Readonly<Record<string, string | undefined>>;
export type NotifyBy = 'osc 9' | 'osc 99' | 'osc 777' | null;

export interface TerminalKind {
  readonly title: boolean;
  readonly progress: boolean;
  readonly notify: NotifyBy;
  /** Sequences for the terminal itself must be wrapped to pass through tmux. */
  readonly insideTmux: boolean;
}

const NOTHING: TerminalKind = { title: false, progress: false, notify: null, insideTmux: false };

/** What this terminal is known to understand. */
export function recogniseTerminal(env: Environment, isTerminal: boolean): TerminalKind {
  const term = env.TERM ?? '';
  // The Linux console prints the inside of some of these.
  if (!isTerminal || term === 'dumb' || term === 'linux' || (term === '' && env.WT_SESSION === undefined)) {
    return NOTHING;
  }
  const insideTmux = (env.TMUX ?? '') !== '';
  if (!insideTmux && (env.STY ?? '') !== '') return { ...NOTHING, title: true };
  return { title: true, insideTmux, ...outerAbilities(env, term) };
}

function outerAbilities(env: Environment, term: string): Pick<TerminalKind, 'progress' | 'notify'> {
  const program = (env.TERM_PROGRAM ?? '').toLowerCase();
  const has = (name: string) => (env[name] ?? '') !== '';
  if (has('KITTY_WINDOW_ID') || term === 'xterm-kitty') return { progress: false, notify: 'osc 99' };
  if (program === 'ghostty' || has('GHOSTTY_RESOURCES_DIR') || term === 'xterm-ghostty') {
    return { progress: true, notify: 'osc 777' };
  }
  if (program === 'wezterm' || has('WEZTERM_PANE')) {
    // Versions are dates.
    return { progress: Number.parseInt(env.TERM_PROGRAM_VERSION ?? '', 10) >= 20250000, notify: 'osc 777' };
  }
  if (program === 'iterm.app' || env.LC_TERMINAL === 'iTerm2') {
    // Older ones take progress for the text of a notification.
    const version = program === 'iterm.app' ? env.TERM_PROGRAM_VERSION : env.LC_TERMINAL_VERSION;
    return { progress: isAtLeast(version ?? '', [3, 6, 6]), notify: 'osc 9' };
  }
  if (has('WT_SESSION') || env.ConEmuANSI === 'ON') return { progress: true, notify: null };
  if (program === 'mintty') return { progress: true, notify: null };
  if (term.startsWith('foot') || term.startsWith('rxvt-unicode'))
    return { progress: false, notify: 'osc 777' };
  // VTE shows progress from 0.80 on, if the sequence ends in ST, and drops notifications where it has none.
  if (has('VTE_VERSION')) return { progress: Number(env.VTE_VERSION) >= 8000, notify: 'osc 777' };
  if (has('KONSOLE_VERSION')) return { progress: Number(env.KONSOLE_VERSION) >= 250400, notify: null };
  return { progress: false, notify: null };
}

function isAtLeast(version: string, least: readonly number[]): boolean {
  const parts = version.split('.').map(part => Number.parseInt(part, 10) || 0);
  for (const [place, wanted] of least.entries()) {
    const part = parts[place] ?? 0;
    if (part !== wanted) return part > wanted;
  }
  return true;
}

/** Text that ends up inside a sequence: one line, short, no controls, no field separators. */
function field(text: string, most: number): string {
  return atMost(visible(text).replaceAll(';', ','), most);
}

function through(kind: TerminalKind, sequence: string): string {
  if (!kind.insideTmux) return sequence;
  return `${ESC}Ptmux;${sequence.replaceAll(ESC, ESC + ESC)}${ST}`;
}

/** Sets the title of window and tab. tmux keeps titles itself, so this is never wrapped. */
export function titleSequence(kind: TerminalKind, title: string): string {
  return kind.title ? `${ESC}]0;${field(title, 100)}${ST}` : '';
}

/** Remembers the title there was, and puts it back. */
export function keepTitleSequence(kind: TerminalKind): string {
  return kind.title && !kind.insideTmux ? `${ESC}[22;0t` : '';
}

export function returnTitleSequence(kind: TerminalKind): string {
  if (!kind.title) return '';
  return kind.insideTmux ? `${ESC}]0;${ST}` : `${ESC}[23;0t`;
}

/** Progress 0 to 1, or null to take it away. Throws RangeError outside. */
export function progressSequence(kind: TerminalKind, progress: number | null): string {
  if (progress !== null && !(progress >= 0 && progress <= 1)) {
    throw new RangeError(`Progress must be 0 to 1, not ${progress}.`);
  }
  if (!kind.progress) return '';
  const state = progress === null ? '0;0' : `1;${Math.floor(progress * 100)}`;
  return through(kind, `${ESC}]9;4;${state}${ST}`);
}

/** A desktop notification. The name of the program comes first, so that no text begins with a command. */
export function notifySequence(kind: TerminalKind, name: string, says: string): string {
  const title = field(name, 40);
  const body = field(says, 200);
  switch (kind.notify) {
    case 'osc 9':
      return through(kind, `${ESC}]9;${title}: ${body}${ST}`);
    case 'osc 777':
      return through(kind, `${ESC}]777;notify;${title};${body}${ST}`);
    case 'osc 99': {
      // The same identifier each time, so that a newer notification replaces the last one.
      const first = through(kind, `${ESC}]99;i=stovehand:d=0;${title}${ST}`);
      return first + through(kind, `${ESC}]99;i=stovehand:d=1:p=body;${body}${ST}`);
    }
    case null:
      return '';
  }
}
