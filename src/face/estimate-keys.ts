/** Keys of the panels at the stove: a thermometer's reading, pages of numbers. */
import { canMeasure } from '../core/batch/lockout.ts';
import type { Batch, MeasuredPlace } from '../core/batch/state.ts';
import type { Units } from '../core/kitchen.ts';
import { amountOf, fieldText, measureFor, typeAmount } from './amounts.ts';
import type { KeyName } from './keys.ts';
import type { Panel, Pressed } from './run-keys.ts';

const BACK: Panel = { kind: 'ask' };

/** Where a thermometer can be held to just now: with two places it is asked which. */
export function onThermometer(batch: Batch, units: Units): Pressed {
  if (!canMeasure(batch, 'centre')) {
    return {
      panel: BACK,
      says: 'A thermometer in a bag tells something from the flame on until it is cool.',
    };
  }
  return canMeasure(batch, 'vessel')
    ? { panel: { kind: 'where' } }
    : { panel: measuring(batch, 'centre', units) };
}

/** Where a first reading of a thermometer begins to be typed, C. */
const FIRST_C = 60;

function measuring(batch: Batch, of: MeasuredPlace, units: Units): Panel {
  const scale = measureFor('temperature', units);
  const last = batch.measured.findLast(entry => entry.of === of && entry.load === batch.load);
  const text = fieldText(scale.fromInside(last?.celsius ?? FIRST_C), scale);
  return { kind: 'measure', of, text, fresh: true };
}

export function onWhere(batch: Batch, key: KeyName, units: Units): Pressed {
  if (key === '1') return { panel: measuring(batch, 'centre', units) };
  if (key === '2') return { panel: measuring(batch, 'vessel', units) };
  return key === 'esc' || key === 'm' || key === 'q' ? { panel: BACK } : { panel: { kind: 'where' } };
}

export function onMeasure(panel: Extract<Panel, { kind: 'measure' }>, key: KeyName, units: Units): Pressed {
  const scale = measureFor('temperature', units);
  if (key === 'esc' || key === 'q') return { panel: BACK };
  if (key === 'enter' || key === 'space') {
    const celsius = amountOf(panel.text, scale);
    if (!Number.isFinite(celsius)) return { panel, says: 'Type a temperature, or Esc.' };
    return { panel: BACK, deed: { type: 'measured', of: panel.of, celsius } };
  }
  const text = typeAmount(panel.text, panel.fresh, key, scale);
  return { panel: text === null ? panel : { ...panel, text, fresh: false } };
}

/** Pages of the estimate; how many there are is only known where they are drawn, and it begins again there. */
export function onNumbers(panel: Extract<Panel, { kind: 'numbers' }>, key: KeyName): Pressed {
  if (key === 'n' || key === 'space' || key === 'enter' || key === 'down')
    return { panel: { ...panel, page: panel.page + 1 } };
  return { panel: BACK };
}
