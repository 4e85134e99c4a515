/** Every deviation, in the order of the product's list and with those that the steps add: how it comes about, what it gives. */
import type { Batch } from '../../src/core/batch/state.ts';
import type { TroubleId } from '../../src/core/batch/troubles.ts';
import { HOUR, MINUTE } from '../../src/core/time.ts';
import type { Drive } from './batch-drive.ts';
import { TARGET_KPA } from './batch-kit.ts';

type Expected = Omit<Partial<Batch>, 'hold'> & { readonly hold?: Partial<Batch['hold']> };
export interface DeviationRow {
  readonly happens: string;
  readonly noted: TroubleId;
  readonly how: (drive: Drive) => Drive;
  readonly gives: Expected;
}

const HELD = 30 * MINUTE;
const full = { dips: 0, lostMs: 0 };

/** Every deviation of the product's list, in its order, and those that the steps add. */
export const DEVIATIONS: readonly DeviationRow[] = [
  {
    happens: 'pot boils over',
    noted: 'boiled-over',
    how: drive => drive.toAsk('simmering').trouble('boiled-over'),
    gives: { step: 'simmer', ask: 'simmering' },
  },
  {
    happens: 'grain overcooked, by the count of burst kernels',
    noted: 'overcooked',
    how: drive => drive.toAsk('kernel-centre').answers('white-core', 'many'),
    gives: { step: 'drain' },
  },
  {
    happens: 'grain overcooked, seen while drying',
    noted: 'overcooked',
    how: drive => drive.to('surface-dry').trouble('overcooked'),
    gives: { step: 'surface-dry', ask: 'drying' },
  },
  {
    happens: 'grain still wet after hours',
    noted: 'still-wet',
    how: drive =>
      drive
        .to('surface-dry')
        .wait(5 * HOUR)
        .trouble('still-wet'),
    gives: { step: 'surface-dry', ask: 'drying' },
  },
  {
    happens: 'grain dried too far',
    noted: 'too-dry',
    how: drive => drive.toAsk('towel').wait(MINUTE).answer('dry'),
    gives: { step: 'portion' },
  },
  {
    happens: 'too few bags',
    noted: 'too-few',
    how: drive => drive.to('portion').answers('as-planned', 'used-up'),
    gives: { step: 'seal', cursor: 0 },
  },
  {
    happens: 'seam failed',
    noted: 'seam-failed',
    how: drive => drive.to('seal').answer('failed'),
    gives: { step: 'seal', ask: 'seam', cursor: 0 },
  },
  {
    happens: 'steam stops during venting',
    noted: 'steam-stopped',
    how: drive =>
      drive
        .to('vent')
        .wait(9 * MINUTE)
        .answer('stopped'),
    gives: { step: 'heat', ask: 'steam', ventFrom: null, ventBreaks: 1 },
  },
  {
    happens: 'steam stops while nobody looks',
    noted: 'steam-stopped',
    how: drive =>
      drive
        .to('vent')
        .gap(9 * MINUTE)
        .answer('unknown'),
    gives: { step: 'heat', ventFrom: null, away: null },
  },
  {
    happens: 'pressure will not climb',
    noted: 'will-not-climb',
    how: drive => drive.to('climb').trouble('will-not-climb'),
    gives: { step: 'climb', ask: 'climbing' },
  },
  {
    happens: 'pressure will not climb: the gasket leaks',
    noted: 'gasket-leaks',
    how: drive => drive.to('climb').trouble('gasket-leaks'),
    gives: { step: 'climb', ask: 'climbing' },
  },
  {
    happens: 'pressure will not climb: the flame is weak',
    noted: 'flame-weak',
    how: drive => drive.to('climb').trouble('flame-weak'),
    gives: { step: 'climb', ask: 'climbing' },
  },
  {
    happens: 'pressure will not climb: the gauge sticks',
    noted: 'gauge-doubtful',
    how: drive => drive.to('climb').trouble('gauge-doubtful'),
    gives: { step: 'climb', ask: 'climbing' },
  },
  {
    happens: 'valve opened in the lock',
    noted: 'valve-opened-cooling',
    how: drive => drive.to('cool').trouble('valve-opened-cooling'),
    gives: { step: 'cool', ask: 'gauge-zero' },
  },
  {
    happens: 'pressure dips in the hold',
    noted: 'dip',
    how: drive => drive.to('hold').wait(HELD).answer('below'),
    gives: { step: 'hold', hold: { creditMs: 0, belief: 'below', dips: 1, lostMs: HELD } },
  },
  {
    happens: 'pressure above target in the hold',
    noted: 'above-target',
    how: drive => drive.to('hold').wait(HELD).answer('above'),
    gives: { step: 'hold', hold: { creditMs: HELD, belief: 'above', ...full } },
  },
  {
    happens: 'pressure above target at the end of the climb',
    noted: 'above-target',
    how: drive => drive.to('climb').answer('reading', TARGET_KPA + 15),
    gives: { step: 'hold', hold: { creditMs: 0, belief: 'above', ...full } },
  },
  ...(['heat', 'vent', 'climb', 'hold', 'heat-off'] as const).map(step => ({
    happens: `pressure over the mark, or the safety valve lifts, in ${step}`,
    noted: 'over-pressure' as const,
    how: (drive: Drive) => drive.to(step).trouble('over-pressure'),
    gives: { step: 'heat-off', ask: 'flame', endedEarly: 'over-pressure' } as const,
  })),
  ...(['heat', 'vent'] as const).map(step => ({
    happens: `no steam though the gauge rises, in ${step}`,
    noted: 'vent-blocked' as const,
    how: (drive: Drive) => drive.to(step).trouble('vent-blocked'),
    gives: { step: 'heat-off', ask: 'flame', endedEarly: 'vent-blocked' } as const,
  })),
  ...(['heat', 'vent', 'climb', 'hold'] as const).map(step => ({
    happens: `the gasket leaks in ${step}`,
    noted: 'gasket-leaks' as const,
    how: (drive: Drive) => drive.to(step).trouble('gasket-leaks'),
    gives: { step, endedEarly: null } as const,
  })),
  {
    happens: 'power or gas fails in the simmer',
    noted: 'heat-failed-in-simmer',
    how: drive => drive.toAsk('simmering').trouble('heat-failed-in-simmer'),
    gives: { step: 'simmer', ask: 'simmering' },
  },
  {
    happens: 'valve opened before the flame is off',
    noted: 'valve-opened-cooling',
    how: drive => drive.to('heat-off').trouble('valve-opened-cooling'),
    gives: { step: 'heat-off', ask: 'flame' },
  },
  {
    happens: 'person was away in the vent, and does not know what the steam did',
    noted: 'was-away',
    how: drive =>
      drive
        .to('vent')
        .wait(9 * MINUTE)
        .trouble('was-away')
        .answer('unknown'),
    gives: { step: 'heat', ventFrom: null, away: null },
  },
  ...(['heat', 'vent', 'climb', 'hold', 'heat-off'] as const).map(step => ({
    happens: `water suspected low in ${step}`,
    noted: 'water-low' as const,
    how: (drive: Drive) => drive.to(step).trouble('water-low'),
    gives: { step: 'heat-off', ask: 'flame', endedEarly: 'water-low' } as const,
  })),
  ...(['heat', 'vent', 'climb'] as const).map(step => ({
    happens: `power or gas fails in ${step}`,
    noted: 'heat-failed' as const,
    how: (drive: Drive) => drive.to(step).trouble('heat-failed'),
    gives: { step: 'heat', ask: 'steam', ventFrom: null } as const,
  })),
  {
    happens: 'power or gas fails in the hold',
    noted: 'heat-failed-in-hold',
    how: drive => drive.to('hold').wait(HELD).trouble('heat-failed-in-hold'),
    gives: { step: 'hold', hold: { creditMs: 0, belief: 'below', dips: 1, lostMs: HELD } },
  },
  ...(['climb', 'hold'] as const).map(step => ({
    happens: `valve opened by mistake in ${step}`,
    noted: 'valve-opened' as const,
    how: (drive: Drive) => drive.to(step).trouble('valve-opened'),
    gives: { step: 'heat', ask: 'steam', ventFrom: null } as const,
  })),
  {
    happens: 'lid opened early',
    noted: 'lid-opened-early',
    how: drive => drive.to('cool').trouble('lid-opened-early'),
    gives: { step: 'cool', ask: 'gauge-zero' },
  },
  {
    happens: 'opened warm, by the typed word',
    noted: 'opened-warm',
    how: drive => drive.toAsk('shut').type('open-early'),
    gives: { step: 'cool', ask: 'shut' },
  },
  {
    happens: 'torn bag',
    noted: 'torn',
    how: drive => drive.to('unload').answer('torn'),
    gives: { step: 'unload', cursor: 1 },
  },
  {
    happens: 'person was away in the hold',
    noted: 'was-away',
    how: drive => drive.to('hold').wait(HELD).trouble('was-away'),
    gives: { step: 'hold', hold: { creditMs: 0, belief: 'at', ...full } },
  },
  {
    happens: 'coach was asleep in the hold',
    noted: 'away',
    how: drive => drive.to('hold').wait(HELD).gap(HOUR),
    gives: { step: 'hold', hold: { creditMs: HELD, belief: 'at', ...full } },
  },
  {
    happens: 'battery died while the lid was locked',
    noted: 'computer-restarted',
    how: drive => drive.to('cool').gap(MINUTE, 'restart', HOUR),
    gives: { step: 'cool', claim: { ms: HOUR } },
  },
  {
    happens: 'recipe ended early on the table',
    noted: 'ended-early',
    how: drive => drive.to('portion').type('end-batch'),
    gives: { step: 'done', endedEarly: 'by-choice' },
  },
  {
    happens: 'recipe ended early under pressure',
    noted: 'ended-early',
    how: drive => drive.to('hold').type('end-batch'),
    gives: { step: 'heat-off', endedEarly: 'by-choice' },
  },
  {
    happens: 'soak cut short',
    noted: 'soak-cut-short',
    how: drive => drive.to('soak').wait(HOUR).type('end-soak'),
    gives: { step: 'simmer' },
  },
  {
    happens: 'hold cut short',
    noted: 'hold-cut-short',
    how: drive => drive.to('hold').wait(HELD).type('end-hold'),
    gives: { step: 'heat-off', endedEarly: null, hold: { creditMs: HELD, belief: 'at', ...full } },
  },
  {
    happens: 'gear missing',
    noted: 'gear-missing',
    how: drive => drive.answer('missing'),
    gives: { step: 'gear', ask: 'gear-check' },
  },
  {
    happens: 'needle touched something',
    noted: 'touched-dirty',
    how: drive => drive.toAsk('inject').trouble('touched-dirty'),
    gives: { step: 'inoculate', ask: 'inject' },
  },
];
