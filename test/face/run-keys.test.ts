import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { WORDS } from '../../src/core/batch/machine.ts';
import type { TypedPurpose } from '../../src/core/batch/events.ts';
import type { Run } from '../../src/core/batch/state.ts';
import { type AskId, ASKS, isJudgement } from '../../src/core/batch/steps.ts';
import { DEFAULT_KITCHEN } from '../../src/core/kitchen.ts';
import type { Deed } from '../../src/core/session.ts';
import { HOUR, MINUTE } from '../../src/core/time.ts';
import { KEYMAP } from '../../src/face/keymap.ts';
import { ASKING, endingsOf, type Panel, type Pressed, pressOnRun } from '../../src/face/run-keys.ts';
import { panelKeys } from '../../src/face/panel-keys.ts';
import { type Regions, regionsFor } from '../../src/face/regions.ts';
import { Drive } from '../help/batch-drive.ts';
import { sampleHeader } from '../help/batch-kit.ts';

const ROOM = regionsFor({ columns: 80, rows: 24 }) as Regions;
const UNITS = DEFAULT_KITCHEN.units;
const at = (ask: AskId): Run => new Drive(sampleHeader()).toAsk(ask).run;

/** Keys one after the other, each on the panel that the one before left. */
function presses(run: Run, keys: readonly string[], from: Panel = ASKING, watching = false) {
  let pressed: Pressed = { panel: from };
  const deeds: Deed[] = [];
  const says: string[] = [];
  for (const key of keys) {
    pressed = pressOnRun(pressed.panel, run, key, UNITS, watching);
    if (pressed.deed) deeds.push(pressed.deed);
    if (pressed.says) says.push(pressed.says);
  }
  return { ...pressed, deeds, says };
}

/** A run at every question that a batch as planned meets. */
const EVERYWHERE: readonly (readonly [AskId, Run])[] = (() => {
  const drive = new Drive(sampleHeader());
  const seen = new Map<AskId, Run>([[drive.ask, drive.run]]);
  while (drive.ask !== 'finished') {
    drive.plannedMove();
    if (!seen.has(drive.ask)) seen.set(drive.ask, drive.run);
  }
  return [...seen];
})();

/** Every key that the keymap knows, and a few it does not. */
const ALL_KEYS = [
  ...new Set([...KEYMAP.flatMap(({ keys }) => keys), 'ctrl-c', 'tab', 'home', 'x', 'é', 'pagedown']),
];

describe('the open question', () => {
  it('is met everywhere on the way', () => {
    expect(EVERYWHERE.length).toBeGreaterThanOrEqual(23);
  });

  it.each(EVERYWHERE)('%s: Space never answers a judgement, and its numbers do', (ask, run) => {
    const space = presses(run, ['space']);
    if (isJudgement(ask) || ask === 'finished') {
      expect(space.deeds).toEqual([]);
      // A finished batch asks nothing, so there is nothing to answer with a number.
      expect(space.says.join().includes('judgement')).toBe(ask !== 'finished');
    }
    for (const { id, key, ...rest } of ASKS[ask] as readonly { id: string; key: string; amount?: string }[]) {
      const { deeds, panel } = presses(run, [key]);
      if (rest.amount === undefined) expect(deeds).toEqual([{ type: 'answer', ask, choice: id }]);
      else expect(panel).toMatchObject({ kind: 'amount', ask, choice: id, fresh: true });
    }
  });

  it.each(EVERYWHERE)('S5 at %s: no single key leaves, undoes, aborts, reports or types a word', (_, run) => {
    for (const key of ALL_KEYS) {
      const { deeds, leave } = presses(run, [key]);
      expect(deeds.every(({ type }) => type === 'answer')).toBe(true);
      if (run.batch.finishedAt === null) expect(leave).toBeUndefined();
    }
  });

  it('Enter does what Space does', () => {
    expect(presses(at('gear-check'), ['enter']).deeds).toEqual(presses(at('gear-check'), ['space']).deeds);
  });

  it('S5: no two different keys abort, override, undo or leave without being those that are shown for it', () => {
    for (const [ask, run] of EVERYWHERE) {
      for (const first of ALL_KEYS) {
        for (const second of ALL_KEYS) {
          if (first === second) continue;
          const { deeds, leave } = presses(run, [first, second]);
          const abort = deeds.some(({ type }) => type === 'typed');
          expect(abort, `${first} ${second} at ${ask}`).toBe(false);
          if (deeds.some(({ type }) => type === 'undo')) expect([first, second]).toEqual(['u', '1']);
          if (leave && run.batch.finishedAt === null) expect(['q', 'ctrl-c']).toContain(second);
        }
      }
    }
  });
});

describe('an amount', () => {
  const run = at('fill');
  const field = presses(run, ['1']).panel;

  it('begins with what was planned, and the first digit replaces it', () => {
    expect(field).toMatchObject({ text: '1.00', of: 'mass' });
    expect(presses(run, ['0', '.', '9', '5', 'enter'], field).deeds).toEqual([
      { type: 'answer', ask: 'fill', choice: 'weighed', amount: 0.95 },
    ]);
  });

  it('goes up and down finely and coarsely, never below nothing', () => {
    expect(presses(run, ['up', 'right', 'enter'], field).deeds[0]).toMatchObject({ amount: 1.11 });
    expect(presses(run, Array(40).fill('left'), field).panel).toMatchObject({ text: '0.00' });
  });

  it('an empty field is no number', () => {
    const { deeds, says } = presses(
      run,
      ['backspace', 'backspace', 'backspace', 'backspace', 'enter'],
      field,
    );
    expect(deeds).toEqual([]);
    expect(says.join()).toContain('Type a number');
  });

  it('far more culture than usual is asked about, and after any other key the digits are a new number', () => {
    const inject = at('inject');
    const asked = presses(inject, ['1', '2', '0', '0', 'enter']);
    expect([asked.panel.kind, asked.deeds]).toEqual(['sure', []]);
    expect(presses(inject, ['x', '4', 'enter'], asked.panel).deeds).toMatchObject([{ amount: 4 }]);
    expect(presses(inject, ['1'], asked.panel).deeds).toMatchObject([{ amount: 200 }]);
  });

  it('Esc changes nothing', () => {
    expect(presses(run, ['2', 'esc'], field)).toMatchObject({ panel: ASKING, deeds: [] });
  });

  it('whatever is typed, an amount that is sent is a number and not below nothing', () => {
    const keys = fc.array(
      fc.constantFrom('0', '9', '.', ',', 'up', 'down', 'left', 'right', 'backspace', 'a', 'enter'),
      { maxLength: 20 },
    );
    fc.assert(
      fc.property(keys, typed => {
        for (const deed of presses(run, typed, field).deeds) {
          if (deed.type === 'answer' && deed.amount !== undefined) {
            expect(Number.isFinite(deed.amount)).toBe(true);
            expect(deed.amount).toBeGreaterThanOrEqual(0);
          }
        }
      }),
      { numRuns: 400 },
    );
  });
});

describe('panels over the question', () => {
  it('pictures: no number is offered where the question has none', () => {
    const keysAt = (ask: AskId) =>
      panelKeys({ kind: 'pictures' }, at(ask).batch, ROOM).map(({ shown }) => shown);
    expect(keysAt('simmering')).toEqual(['any key']);
    expect(keysAt('kernel-centre')).toEqual(['1-3', 'any other key']);
  });

  const hold = at('holding');

  it('trouble: the list, then the one that happened; or back', () => {
    expect(presses(hold, ['t']).panel).toEqual({ kind: 'trouble', page: 0 });
    expect(presses(hold, ['t', '3']).deeds).toHaveLength(1);
    expect(presses(hold, ['t', 'esc'])).toMatchObject({ panel: ASKING, deeds: [] });
    expect(presses(hold, ['t', 'x']).panel).toEqual({ kind: 'trouble', page: 0 });
    expect(presses(hold, ['t', '4']).panel).toEqual({ kind: 'trouble', page: 1 });
  });

  it('ending: each act asks for its own word, letter by letter', () => {
    expect(endingsOf(hold.batch)).toEqual(['end-hold', 'end-batch']);
    for (const [index, purpose] of endingsOf(hold.batch).entries()) {
      const keys = ['e', String(index + 1), ...WORDS[purpose], 'enter'];
      expect(presses(hold, keys).deeds).toEqual([{ type: 'typed', purpose, word: WORDS[purpose] }]);
      expect(presses(hold, keys.toSpliced(-2, 1)).deeds).toEqual([]);
    }
  });

  it('ending: nothing shortens the pressure part of a lock', () => {
    const lock = new Drive(sampleHeader()).toAsk('gauge-zero');
    const offered: TypedPurpose[] = [...endingsOf(lock.batch)];
    expect(offered).toEqual(['end-batch']);
    const shut = new Drive(sampleHeader()).toAsk('shut');
    expect(endingsOf(shut.batch)).toEqual(['open-early', 'end-batch']);
    shut.wait(10 * HOUR);
    expect(endingsOf(shut.batch)).toEqual(['end-batch']);
  });

  it('a wrong word is forgotten and said', () => {
    const { panel, says, deeds } = presses(hold, ['e', '2', 'e', 'n', 'x', 'enter']);
    expect(panel).toMatchObject({ kind: 'word', text: '' });
    expect(says.join()).toContain('Not the word');
    expect(deeds).toEqual([]);
  });

  it('undo asks; only 1 takes back', () => {
    expect(presses(hold, ['u']).panel).toMatchObject({ kind: 'undo', to: { ask: expect.any(String) } });
    expect(presses(hold, ['u', '1']).deeds).toEqual([{ type: 'undo' }]);
    for (const key of ALL_KEYS.filter(key => key !== '1' && key !== 'ctrl-c')) {
      expect(presses(hold, ['u', key]).deeds).toEqual([]);
    }
    expect(presses(at('gear-check'), ['u']).says.join()).toContain('Nothing left to take back');
  });

  it('the wiped keyboard opens by w and then Enter, and by nothing else', () => {
    const locked: Panel = { kind: 'wipe', unlocking: false };
    const keys = fc.array(fc.constantFrom(...ALL_KEYS.filter(key => key !== 'ctrl-c')), { maxLength: 30 });
    fc.assert(
      fc.property(keys, pressed => {
        const opened = pressed.some((key, index) => key === 'enter' && pressed[index - 1] === 'w');
        const { panel, deeds } = presses(hold, pressed, locked);
        if (!opened) expect({ kind: panel.kind, deeds }).toEqual({ kind: 'wipe', deeds: [] });
      }),
      { numRuns: 500 },
    );
    expect(presses(hold, ['w', 'w', 'enter']).panel).toEqual(ASKING);
  });

  it('leaving asks once, and a second time it is meant; a finished batch is left at once', () => {
    expect(presses(hold, ['q'])).toMatchObject({ panel: { kind: 'leave' } });
    expect(presses(hold, ['q', 'q']).leave).toBe(true);
    expect(presses(hold, ['ctrl-c', 'ctrl-c']).leave).toBe(true);
    expect(presses(hold, ['q', 'x'])).toMatchObject({ panel: ASKING });
    expect(presses(at('finished'), ['q']).leave).toBe(true);
  });

  it('Ctrl-C works over every panel', () => {
    for (const opener of [['t'], ['e'], ['e', '2'], ['u'], ['w'], ['?'], ['n'], ['4']]) {
      expect(presses(hold, [...opener, 'ctrl-c']).panel).toEqual({ kind: 'leave' });
    }
  });
});

describe('a watching copy', () => {
  it('answers nothing, whatever is pressed', () => {
    const keys = fc.array(fc.constantFrom(...ALL_KEYS), { maxLength: 12 });
    fc.assert(
      fc.property(keys, pressed => {
        expect(presses(at('venting'), pressed, ASKING, true).deeds).toEqual([]);
      }),
      { numRuns: 100 },
    );
  });
});

it('S5: three minutes of a cat on the keyboard neither skip a vent nor end a batch by themselves', () => {
  // Every key goes through, as if no guard were there; the word for ending is the one thing a cat does not type.
  const keys = fc.array(fc.constantFrom(...ALL_KEYS.filter(key => key !== 'e')), { maxLength: 120 });
  fc.assert(
    fc.property(keys, pressed => {
      const drive = new Drive(sampleHeader()).toAsk('venting');
      const { ventFrom } = drive.batch;
      let panel: Panel = ASKING;
      for (const key of pressed) {
        const { panel: next, deed } = pressOnRun(panel, drive.run, key, UNITS, false);
        panel = next;
        if (deed) drive.tries(deed, 10);
        expect(['heat', 'vent', 'climb', 'hold', 'heat-off', 'cool', 'load']).toContain(drive.batch.step);
        if (drive.batch.step === 'climb')
          expect(drive.batch.now - (ventFrom ?? 0)).toBeGreaterThanOrEqual(10 * MINUTE);
        expect(drive.batch.finishedAt).toBeNull();
      }
    }),
    { numRuns: 200 },
  );
});
