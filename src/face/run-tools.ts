/** The line of tools below a batch: only keys that do something just now. */
import { canMeasure } from '../core/batch/lockout.ts';
import type { Batch } from '../core/batch/state.ts';
import { estimateAt } from '../core/estimate/estimate.ts';
import { isProbeDone, keptProbe } from '../core/estimate/probe-kept.ts';
import { tellingOf } from './format.ts';
import { barOf } from './keymap.ts';
import { type Panel, WATCHERS_KEYS } from './run-keys.ts';
import { picturesOf } from './run-view.ts';
import type { KeyLabel } from './widgets/frame.tsx';

const TOOLS = barOf('run');

/** Whether a tool does something just now: a key line is no place for dead keys. */
function isLive(act: string, batch: Batch, canUndo: boolean): boolean {
  switch (act) {
    case 'undo':
      return canUndo;
    case 'leave':
      // Out of a batch that is over the way leads home, and Esc says so.
      return batch.finishedAt === null;
    case 'numbers':
      return estimateAt(batch) !== null && batch.finishedAt === null;
    case 'measure':
      return canMeasure(batch, 'centre');
    case 'pictures':
      return picturesOf(batch, tellingOf(batch, batch.header.kitchen.units)).length > 0;
    case 'keep':
      return isProbeDone(batch) && keptProbe(batch) !== null;
    case 'trouble':
    case 'ending':
      return batch.finishedAt === null;
    default:
      return true;
  }
}

/** Below a question; below a batch that is over, the way home. */
export function stepTools(batch: Batch, canUndo: boolean, watching: boolean): readonly KeyLabel[] {
  const live = TOOLS.filter(
    ({ act, shown }) => isLive(act, batch, canUndo) && (!watching || WATCHERS_KEYS.includes(shown)),
  );
  return batch.finishedAt === null ? live : [...live, { shown: 'Esc', says: 'home' }];
}

/** Below a panel: nothing where its own keys already say that any other one, or none, leads back. */
export function panelTools(panel: Panel, answers: readonly KeyLabel[]): readonly KeyLabel[] {
  const isSaid = panel.kind === 'wipe' || answers.some(({ shown }) => shown.startsWith('any'));
  return isSaid ? [] : [{ shown: 'Esc', says: 'back' }];
}
