/**
 * What the lines behind a damaged one still tell. They are not gone on with, since nobody can vouch for what
 * came before them; but when they speak of a closed cooker, the person must not be told to open it.
 */
import { ASKS, STEPS } from '../core/batch/steps.ts';
import { type FileLayer, readStart } from './files.ts';
import { LONGEST_JOURNAL } from './journal-read.ts';

/** Questions that are only asked over a closed or steaming cooker. */
const OVER_PRESSURE = (Object.keys(ASKS) as (keyof typeof ASKS)[]).filter(
  ask =>
    ['pin', 'shut', 'away-steam', 'away-gauge'].includes(ask) ||
    STEPS.some(({ opens, maybePressure }) => maybePressure && opens === ask),
);
const SPEAKS = new RegExp(`"ask":"(?:${OVER_PRESSURE.join('|')})"`);

/** A sentence for the screen when line `line` or a later one of the file answers a question over a closed cooker. */
export function warnOfClosedCooker(files: FileLayer, path: string, line: number): string | null {
  const lines = readStart(files, path, LONGEST_JOURNAL).toString('latin1').split('\n');
  if (!lines.slice(line - 1).some(text => SPEAKS.test(text))) return null;
  return 'The lines left out speak of a closed cooker: keep the lid shut until the gauge is at zero and it has cooled, whatever step is shown.';
}
