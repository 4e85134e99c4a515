/** The instruction of the hold: by what is believed of the gauge, and by how long ago that was said. */
import { isAwaitingGauge } from '../batch/advance.ts';
import { gaugeToldAt, isGaugeOverdue } from '../batch/gauge.ts';
import { numbersOf } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import { formatDuration, formatPressure } from '../quantity-format.ts';
import { MINUTE } from '../time.ts';
import { dryWords } from './estimate-advice.ts';
import type { Telling } from './telling.ts';

export function holdWords(batch: Batch, telling: Telling): string {
  const target = formatPressure(numbersOf(batch).targetKPa, telling.units);
  if (isGaugeOverdue(batch)) return overdueWords(batch);
  switch (batch.hold.belief) {
    case 'below':
      return dryWords(batch) === null
        ? `No time counts below ${target}. More flame, and answer 2 when the gauge is back.`
        : `No time counts below ${target}, and without water no flame brings it back.`;
    case 'unknown':
      return `What does the gauge show now? Time counts again from ${target} on.`;
    case 'above':
      return `Above target: lower the flame a little. Keep the gauge at ${target} or just over.`;
    case 'at':
      return `Keep the gauge at ${target} or a little above. Lower the flame when it climbs.`;
  }
}

/** Nobody has said for long what the gauge shows: why it is asked, and what each answer does. */
function overdueWords(batch: Batch): string {
  const silent = formatDuration(Math.floor((batch.now - gaugeToldAt(batch)) / MINUTE) * 60);
  const done = isAwaitingGauge(batch) ? 'All minutes are served. ' : '';
  return `${done}What does the gauge show now? Not answered for ${silent}: at target they count, below they do not.`;
}
