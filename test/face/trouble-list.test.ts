import { describe, expect, it } from 'vitest';
import type { Batch } from '../../src/core/batch/state.ts';
import { STEP_IDS, type StepId } from '../../src/core/batch/steps.ts';
import { TROUBLES, type TroubleId } from '../../src/core/batch/troubles.ts';
import { DEFAULT_KITCHEN } from '../../src/core/kitchen.ts';
import { HOUR, MINUTE } from '../../src/core/time.ts';
import { TROUBLE_WORDS, troubleWords } from '../../src/core/words/troubles.ts';
import { panelKeys } from '../../src/face/panel-keys.ts';
import { ASKING, type Panel, pressOnRun } from '../../src/face/run-keys.ts';
import { causesOn, pageOf, troubleEntries, troublesOn } from '../../src/face/trouble-list.ts';
import { Drive } from '../help/batch-drive.ts';
import { sampleHeader } from '../help/batch-kit.ts';
import { regions } from './sheet-kit.tsx';

const UNITS = DEFAULT_KITCHEN.units;
const drive = () => new Drive(sampleHeader());
const sealedAfter = () => new Drive(sampleHeader({ seal: 'after' }));
const venting = () => drive().to('vent').wait(MINUTE);
const holding = () => drive().to('hold').wait(MINUTE);
/** The word that ends a batch. */
const OFF = ['o', 'f', 'f', 'enter'] as const;
const UNDER_FIRE = ['heat', 'vent', 'climb', 'hold', 'heat-off'] as const;
type Listed = readonly [happens: string, () => Drive, keys: readonly string[], TroubleId];
const danger = (happens: string, step: StepId, key: string, id: TroubleId): Listed => [
  happens,
  () => drive().to(step),
  [key, ...OFF],
  id,
];

/** The same with refusals left aside, for keys that mean nothing. */
function pressesWhatItCan(here: Drive, ...keys: string[]): void {
  let panel: Panel = ASKING;
  for (const key of keys) {
    const pressed = pressOnRun(panel, here.run, key, UNITS, false);
    panel = pressed.panel;
    if (pressed.deed) here.tries(pressed.deed);
  }
}

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

/** The product's list of deviations, in its order: where it happens, and what the person presses there after t. */
const LISTED: readonly Listed[] = [
  ['pot boils over', () => drive().toAsk('simmering'), ['1'], 'boiled-over'],
  ['grain overcooked', () => drive().toAsk('simmering'), ['2'], 'overcooked'],
  ['grain overcooked, seen in the sieve', () => drive().to('drain'), ['1'], 'overcooked'],
  ['grain overcooked, seen while drying', () => drive().to('surface-dry'), ['1'], 'overcooked'],
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
  ['seam failed, sealed after', () => sealedAfter().to('seal-after'), ['1'], 'seam-failed'],
  ['steam stops during venting', () => venting(), ['4', '4', '1'], 'steam-stopped'],
  danger('no steam, but the gauge rises', 'heat', '3', 'vent-blocked'),
  danger('the jet dies, but the gauge rises', 'vent', '3', 'vent-blocked'),
  ['pressure will not climb', () => drive().to('climb'), ['3'], 'will-not-climb'],
  ['valve left open, so no climb', () => drive().to('climb'), ['3', '1'], 'valve-opened'],
  ['gasket, so no climb', () => drive().to('climb'), ['3', '2'], 'gasket-leaks'],
  ['too little water', () => drive().to('climb'), ['3', '3', ...OFF], 'water-low'],
  ['weak burner', () => drive().to('climb'), ['3', '4', '1'], 'flame-weak'],
  ['gauge sticks', () => drive().to('climb'), ['3', '4', '2'], 'gauge-doubtful'],
  ['pressure dips in the hold', () => holding(), ['4', '4', '1'], 'dip'],
  ['pressure above target in the hold', () => holding(), ['4', '4', '2'], 'above-target'],
  ['pressure above target in the climb', () => drive().to('climb'), ['4', '4', '1'], 'above-target'],
  ...UNDER_FIRE.flatMap(step => [
    danger(`over the mark, or the safety valve lifts, in ${step}`, step, '1', 'over-pressure'),
    danger(`water suspected low or burnt smell in ${step}`, step, '2', 'water-low'),
  ]),
  ['gasket leaks in heat', () => drive().to('heat'), ['4', '2'], 'gasket-leaks'],
  ['gasket leaks in vent', () => venting(), ['4', '2'], 'gasket-leaks'],
  ['gasket leaks in climb', () => drive().to('climb'), ['4', '2'], 'gasket-leaks'],
  ['gasket leaks in hold', () => holding(), ['3'], 'gasket-leaks'],
  ['power or gas fails in the simmer', () => drive().toAsk('simmering'), ['3'], 'heat-failed-in-simmer'],
  ['power or gas fails before steam', () => drive().to('heat'), ['4', '1'], 'heat-failed'],
  ['power or gas fails in the vent', () => venting(), ['4', '1'], 'heat-failed'],
  ['power or gas fails while it climbs', () => drive().to('climb'), ['4', '1'], 'heat-failed'],
  ['power or gas fails in the hold', () => holding(), ['4', '2'], 'heat-failed-in-hold'],
  ['valve opened by mistake in the climb', () => drive().to('climb'), ['4', '3'], 'valve-opened'],
  ['valve opened by mistake in the hold', () => holding(), ['4', '1'], 'valve-opened'],
  ['valve opened before the flame is off', () => drive().to('heat-off'), ['3'], 'valve-opened-cooling'],
  ['valve opened in the lock', () => drive().to('cool'), ['1'], 'valve-opened-cooling'],
  ['lid opened early', () => drive().to('cool'), ['2'], 'lid-opened-early'],
  ['torn bag', () => drive().to('unload'), ['1'], 'torn'],
  ['person was away in the vent', () => venting(), ['4', '3'], 'was-away'],
  ['person was away in the hold', () => holding(), ['4', '3'], 'was-away'],
];

describe('one key leads to every deviation from where it happens', () => {
  it.each(LISTED)('%s', (_, there, keys, noted) => {
    expect(presses(there(), 't', ...keys).notes).toContain(noted);
  });

  it('has every deviation that a person can report', () => {
    const reached = new Set(LISTED.map(([, , , id]) => id));
    const byClockOrWord = ['away', 'computer-restarted', 'ended-early', 'hold-cut-short', 'soak-cut-short'];
    const elsewhere = [...byClockOrWord, 'opened-warm', 'gear-missing', 'too-dry', 'touched-dirty'];
    expect(TROUBLES.map(({ id }) => id).filter(id => !reached.has(id) && !elsewhere.includes(id))).toEqual(
      [],
    );
  });

  it('what ends the batch wants its word: no two keys do, nor more of them without it', () => {
    for (const step of UNDER_FIRE) {
      for (const first of ['1', '2', '3', '4']) {
        for (const second of ['1', '2', '3', '4', 'enter', 'space', 't', 'e', 'y']) {
          const here = drive().to(step);
          pressesWhatItCan(here, 't', first, second, 'enter', 'space');
          expect(here.batch.endedEarly, `${step}: t ${first} ${second}`).toBeNull();
        }
      }
    }
    const here = drive().to('hold');
    expect(presses(here, 't', '2').panel).toEqual({ kind: 'ends', trouble: 'water-low', text: '' });
    expect(presses(here, 't', '2', 'esc').notes).toEqual([]);
    expect(presses(here, 't', '2', 'o', 'f', 'enter').notes).toEqual([]);
    expect(here.batch.step).toBe('hold');
    expect(presses(here, 't', '2', ...OFF).notes).toEqual(['water-low']);
    expect(here.batch).toMatchObject({ step: 'heat-off', endedEarly: 'water-low' });
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
    const { panel, notes } = presses(here, 't', '3');
    expect(panel).toEqual({ kind: 'causes', of: 'will-not-climb', page: 0 });
    expect(notes).toEqual(['will-not-climb']);
    expect(presses(drive().to('climb'), 't', '3', 'esc').panel).toEqual(ASKING);
  });

  it('never offers more than four keys on a page, and every page is reached in turn', () => {
    for (const step of STEP_IDS) {
      const batch = somewhereIn(step);
      const { of } = troublesOn(batch, 0);
      const seen = Array.from({ length: of }, (_, page) => {
        const { entries, more } = troublesOn(batch, page);
        expect(entries.length + (more ? 1 : 0), step).toBeLessThanOrEqual(4);
        return entries;
      }).flat();
      expect(seen, step).toEqual(troubleEntries(batch));
      expect(troublesOn(batch, of).entries, step).toEqual(troublesOn(batch, 0).entries);
    }
    expect(pageOf([1, 2, 3, 4], 7)).toMatchObject({ entries: [1, 2, 3, 4], more: false });
  });

  it('says on the last page that the fourth key leads to the beginning', () => {
    const batch = somewhereIn('hold');
    const { of } = troublesOn(batch, 0);
    expect(of).toBeGreaterThan(1);
    const fourth = (page: number) =>
      panelKeys({ kind: 'trouble', page }, batch, regions(80, 24)).find(({ shown }) => shown === '4')?.says;
    expect([fourth(0), fourth(of - 1), fourth(of)]).toEqual([
      'more of them',
      'from the beginning',
      'more of them',
    ]);
    expect(panelKeys({ kind: 'causes', of: 'will-not-climb', page: 1 }, batch, regions(80, 24))[1]).toEqual({
      shown: '4',
      says: 'from the beginning',
    });
  });

  it('goes through the causes in their order', () => {
    expect([...causesOn('will-not-climb', 0).entries, ...causesOn('will-not-climb', 1).entries]).toEqual([
      'valve-opened',
      'gasket-leaks',
      'water-low',
      'flame-weak',
      'gauge-doubtful',
    ]);
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
  it.each(TROUBLES.map(({ id }) => id))('%s: is told of bags, or of jars, by their own word', id => {
    for (const kind of ['bag', 'jar'] as const) {
      const { header } = new Drive(sampleHeader({ jars: kind === 'jar' })).batch;
      const said = Object.values(troubleWords(id, { header })).join(' ');
      expect(said).not.toMatch(/container/i);
      if (/container/.test(Object.values(TROUBLE_WORDS[id]).join(' '))) expect(said).toMatch(kind);
    }
  });
});
