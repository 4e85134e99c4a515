import { Terminal } from '@xterm/headless';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Environment,
  keepTitleSequence,
  notifySequence,
  progressSequence,
  recogniseTerminal,
  returnTitleSequence,
  titleSequence,
} from '../../src/shell/terminal-signals.ts';

// Forms of the sequences [READ]: xterm control sequences (OSC 0); Ghostty documentation of OSC 9;4;
// kitty documentation of OSC 99; tmux(1) on allow-passthrough. OSC 9 and OSC 777 as documented by iTerm2 and
// urxvt [MEMORY]. Which terminal understands what: the terminals' own documentation, read 2026, or MEMORY.

const term = { TERM: 'xterm-256color' };
const kind = (env: Environment) => recogniseTerminal(env, true);

describe('which terminal understands what', () => {
  it.each([
    ['kitty', { ...term, KITTY_WINDOW_ID: '1' }, false, 'osc 99'],
    ['Ghostty', { ...term, TERM_PROGRAM: 'ghostty' }, true, 'osc 777'],
    ['iTerm2 3.6.6', { ...term, TERM_PROGRAM: 'iTerm.app', TERM_PROGRAM_VERSION: '3.6.6' }, true, 'osc 9'],
    ['iTerm2 3.5.14', { ...term, TERM_PROGRAM: 'iTerm.app', TERM_PROGRAM_VERSION: '3.5.14' }, false, 'osc 9'],
    ['Windows Terminal', { WT_SESSION: 'a-b' }, true, null],
    ['VTE 0.80', { ...term, VTE_VERSION: '8000' }, true, 'osc 777'],
    ['VTE 0.76', { ...term, VTE_VERSION: '7600' }, false, 'osc 777'],
    [
      'WezTerm of 2024',
      { ...term, TERM_PROGRAM: 'WezTerm', TERM_PROGRAM_VERSION: '20240203-1' },
      false,
      'osc 777',
    ],
    ['foot', { TERM: 'foot' }, false, 'osc 777'],
    ['an unknown one', term, false, null],
  ] as const)('%s', (_, env, progress, notify) => {
    expect(kind(env)).toEqual({ title: true, progress, notify, insideTmux: false });
  });

  it('nothing for a dumb terminal, the Linux console, a pipe', () => {
    const env = { KITTY_WINDOW_ID: '1' };
    const nothing = [
      kind({ ...env, TERM: 'dumb' }),
      kind({ ...env, TERM: 'linux' }),
      kind(env),
      recogniseTerminal({ ...env, ...term }, false),
    ];
    for (const silent of nothing) {
      const sent = [
        titleSequence(silent, 'a'),
        keepTitleSequence(silent),
        returnTitleSequence(silent),
        progressSequence(silent, 0.5),
        notifySequence(silent, 'a', 'b'),
      ];
      expect(sent.join('')).toBe('');
    }
  });

  it('only the title inside screen, everything through tmux to a terminal that is known', () => {
    expect(kind({ TERM: 'screen', STY: '1.x', KITTY_WINDOW_ID: '1' })).toMatchObject({
      title: true,
      notify: null,
    });
    const tmux = kind({
      TERM: 'tmux-256color',
      TMUX: '/tmp/x,1,0',
      TERM_PROGRAM: 'tmux',
      KITTY_WINDOW_ID: '1',
    });
    expect(tmux).toEqual({ title: true, progress: false, notify: 'osc 99', insideTmux: true });
  });
});

describe('the sequences', () => {
  const ghostty = kind({ ...term, TERM_PROGRAM: 'ghostty' });
  const kitty = kind({ ...term, KITTY_WINDOW_ID: '1' });
  const iterm = kind({ ...term, TERM_PROGRAM: 'iTerm.app', TERM_PROGRAM_VERSION: '3.6.9' });

  it('have the documented form', () => {
    expect(titleSequence(ghostty, 'Hold 12 min')).toBe('\u001b]0;Hold 12 min\u001b\\');
    expect(progressSequence(ghostty, 0.505)).toBe('\u001b]9;4;1;50\u001b\\');
    expect(progressSequence(ghostty, null)).toBe('\u001b]9;4;0;0\u001b\\');
    expect(notifySequence(ghostty, 'Stovehand', 'Heat off')).toBe(
      '\u001b]777;notify;Stovehand;Heat off\u001b\\',
    );
    expect(notifySequence(iterm, 'Stovehand', '4;1;50')).toBe('\u001b]9;Stovehand: 4,1,50\u001b\\');
    expect(notifySequence(kitty, 'Stovehand', 'Heat off')).toBe(
      '\u001b]99;i=stovehand:d=0;Stovehand\u001b\\\u001b]99;i=stovehand:d=1:p=body;Heat off\u001b\\',
    );
  });

  it('pass through tmux with every escape doubled', () => {
    const tmux = { ...ghostty, insideTmux: true };
    expect(progressSequence(tmux, 1)).toBe('\u001bPtmux;\u001b\u001b]9;4;1;100\u001b\u001b\\\u001b\\');
    expect(titleSequence(tmux, 'a')).toBe('\u001b]0;a\u001b\\');
  });

  it('refuse a progress that is none', () => {
    for (const bad of [-0.1, 1.01, Number.NaN])
      expect(() => progressSequence(ghostty, bad)).toThrow(RangeError);
  });

  const texts = fc.string({
    unit: fc.constantFrom('\u001b', '\u0007', '\u009c', '\\', ';', 'a', '\n', '\u202e', '🍄', '[2J', ']0;'),
    maxLength: 300,
  });

  it('S8: never end early or print a cell, whatever the text: seen by a real terminal parser', async () => {
    const screen = new Terminal({ cols: 80, rows: 5, allowProposedApi: true });
    const titles: string[] = [];
    screen.onTitleChange(title => titles.push(title));
    let bells = 0;
    screen.onBell(() => {
      bells += 1;
    });
    const samples = fc.sample(texts, { numRuns: 300, seed: 4 });
    for (const text of samples) {
      for (const terminal of [ghostty, kitty, iterm, { ...kitty, insideTmux: true }]) {
        const sent = titleSequence(terminal, text) + notifySequence(terminal, text, text);
        await new Promise<void>(resolve => screen.write(sent, resolve));
      }
    }
    expect(titles).toHaveLength(4 * samples.length);
    expect(bells).toBe(0);
    expect(screen.buffer.active.getLine(0)?.translateToString(true)).toBe('');
    expect([screen.buffer.active.cursorX, screen.buffer.active.cursorY]).toEqual([0, 0]);
  });
});
