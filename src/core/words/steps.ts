/** What the steps are called. */
import type { StepId } from '../batch/steps.ts';

export const STEP_NAMES: Readonly<Record<StepId, string>> = {
  gear: 'Gear',
  measure: 'Weigh',
  soak: 'Soak',
  simmer: 'Simmer',
  drain: 'Drain',
  'surface-dry': 'Surface-dry',
  portion: 'Portion',
  seal: 'Seal',
  load: 'Load',
  heat: 'Heat, valve open',
  vent: 'Vent',
  climb: 'Climb',
  hold: 'Hold',
  'heat-off': 'Heat off',
  cool: 'Cool, locked',
  unload: 'Unload',
  'seal-after': 'Seal',
  rest: 'Rest',
  inoculate: 'Inoculate',
  done: 'Done',
};
