import { describe, expect, it } from 'vitest';
import type { Batch } from '../../src/core/batch/state.ts';
import { STEP_IDS, type StepId } from '../../src/core/batch/steps.ts';
import { TROUBLES, type TroubleId } from '../../src/core/batch/troubles.ts';
import { DEFAULT_KITCHEN } from '../../src/core/kitchen.ts';
import { HOUR, MINUTE } from '../../src/core/time.ts';
import { TROUBLE_WORDS } from '../../src/core/words/troubles.ts';
import { ASKING, type Panel, pressOnRun } from '../../src/face/run-keys.ts';
import { answeredTroubles, causesOn, troubleEntries } from '../../src/face/trouble-list.ts';
import { Drive } from '../help/batch-drive.ts';
import { sampleHeader } from '../help/batch-kit.ts';

const UNITS = DEFAULT_KITCHEN.units;
const drive = () => new Drive(sampleHeader());

/** Presses keys as on the screen; what they lead to is done to the batch. */
function presses(
  here: Drive,
  ...keys: string[]
): { readonly panel: Panel; readonly notes: readonly TroubleId[] } {
  let panel: Panel = ASKING;
  const before = here.batch.deviations.length;
  for (const key of keys) {
    const pressed = pressOnRun(panel, here.run, key, UNITS, false);
    panel = pressed.panel;
    if (pressed.deed && here.tries(pressed.deed)) throw new Error(`${key} was refused`);
  }
  return { panel, notes: here.batch.deviations.slice(before).map(({ trouble }) => trouble) };
}

/** The product's list of deviations: where it happens, and what the person presses there after t. */
const LISTED: readonly (readonly [happens: string, () => Drive, keys: readonly string[], TroubleId])[] = [
  ['pot boils over', () => drive().toAsk('simmering'), ['1'], 'boiled-over'],
  ['grain overcooked', () => drive().toAsk('simmering'), ['2'], 'overcooked'],
  [
    'grain still wet after hours',
    () =>
      drive()
        .to('surface-dry')
        .wait(5 * HOUR),
    ['2'],
    'still-wet',
  ],
  ['too few bags', () => drive().to('portion').answer('as-planned'), ['1'], 'too-few'],
  ['seam failed', () => drive().to('seal'), ['1'], 'seam-failed'],
  ['steam stops during venting', () => drive().to('vent').wait(MINUTE), ['3'], 'steam-stopped'],
  ['pressure will not climb', () => drive().to('climb'), ['2'], 'will-not-climb'],
  ['valve left open, so no climb', () => drive().to('climb'), ['2', '1'], 'valve-opened'],
  ['gasket leaks', () => drive().to('climb'), ['2', '2'], 'gasket-leaks'],
  ['too little water', () => drive().to('climb'), ['2', '3'], 'water-low'],
  ['weak burner', () => drive().to('climb'), ['2', '4', '1'], 'flame-weak'],
  ['gauge sticks', () => drive().to('climb'), ['2', '4', '2'], 'gauge-doubtful'],
  ['power or gas fails while it climbs', () => drive().to('climb'), ['1'], 'heat-failed'],
  ['power or gas fails in the hold', () => drive().to('hold'), ['2'], 'heat-failed-in-hold'],
  ['valve opened by mistake', () => drive().to('hold'), ['1'], 'valve-opened'],
  ['valve opened in the lock', () => drive().to('cool'), ['1'], 'valve-opened-cooling'],
  ['lid opened early', () => drive().to('cool'), ['2'], 'lid-opened-early'],
  ['water suspected low or burnt smell', () => drive().to('hold'), ['4'], 'water-low'],
  ['person was away', () => drive().to('hold').wait(MINUTE), ['3'], 'was-away'],
  ['torn bag', () => drive().to('unload'), ['1'], 'torn'],
];

describe('one key leads to every deviation from where it happens', () => {
  it.each(LISTED)('%s', (_, there, keys, noted) => {
    expect(presses(there(), 't', ...keys).notes).toContain(noted);
  });

  it('dip and too much pressure are answers of the hold, and the list says under which key', () => {
    const here = drive().to('hold').wait(MINUTE);
    expect(answeredTroubles(here.batch)).toEqual([
      { key: '1', id: 'dip' },
      { key: '3', id: 'above-target' },
    ]);
    expect(presses(here, '1').notes).toEqual(['dip']);
  });

  it('the clock notes a battery that died, the end key an end before its time', () => {
    expect(
      drive()
        .to('hold')
        .gap(HOUR, 'restart')
        .batch.deviations.map(({ trouble }) => trouble),
    ).toContain('computer-restarted');
    expect(presses(drive().to('hold'), 't', 'e').panel).toEqual({ kind: 'ending' });
  });

  it('a cause opens its list at once and is noted before any cause is chosen', () => {
    const here = drive().to('climb');
    const { panel, notes } = presses(here, 't', '2');
    expect(panel).toEqual({ kind: 'causes', of: 'will-not-climb', page: 0 });
    expect(notes).toEqual(['will-not-climb']);
    expect(presses(drive().to('climb'), 't', '2', 'esc').panel).toEqual(ASKING);
  });

  it('never offers more than four keys, and goes through the causes in their order', () => {
    for (const step of STEP_IDS)
      expect(troubleEntries(somewhereIn(step)).length, step).toBeLessThanOrEqual(4);
    const all: TroubleId[] = [];
    for (let page = 0; ; page += 1) {
      const { causes, more } = causesOn('will-not-climb', page);
      expect(causes.length + (more ? 1 : 0)).toBeLessThanOrEqual(4);
      all.push(...causes);
      if (!more) break;
    }
    expect(all).toEqual(['valve-opened', 'gasket-leaks', 'water-low', 'flame-weak', 'gauge-doubtful']);
  });
});

const somewhereIn = (step: StepId): Batch =>
  new Drive(sampleHeader({ seal: step === 'seal-after' ? 'after' : 'before' })).to(step).batch;

describe('what is said of a deviation', () => {
  /** A full stop, or one of its kind, before a new beginning. */
  const sentences = (text: string) => text.split(/(?<=[.!?])\s+(?=[A-Z])/).length;
  it.each(TROUBLES.map(({ id }) => id))('%s: one sentence of meaning, one of action', id => {
    const { name, means, act } = TROUBLE_WORDS[id];
    expect(name).toMatch(/^[^.]+$/);
    for (const text of [means, act]) {
      expect(text).toMatch(/^[A-Z].*\S[.e]$/);
      expect(sentences(text), text).toBe(1);
    }
  });
});
