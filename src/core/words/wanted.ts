/** What an alert says, short enough for a window title and for speech. */
import type { Wanted, WantedCode } from '../batch/wanted.ts';

const WANTED: Readonly<Record<WantedCode, string>> = {
  'answer-doubt': 'Tell what happened meanwhile',
  'soak-earliest': 'Soaked enough',
  'soak-latest': 'Soak is over: simmer now',
  look: 'Cut three kernels',
  stir: 'Stir the grain',
  towel: 'Lift the towel',
  'vent-done': 'Close the valve',
  'vent-soon': 'Venting is nearly done',
  'below-target': 'Below target: more flame',
  'gauge-unknown': 'Look at the gauge',
  'gauge-overdue': 'What does the gauge show now?',
  'above-target': 'Above target: lower the flame',
  'hold-soon': 'The hold is nearly done',
  'hold-done': 'Turn the heat off',
  'flame-on': 'The heat is still on: turn it off',
  'gauge-look': 'Look whether the gauge is at zero',
  'pin-look': 'Check the lid pin',
  'cool-done': 'Cool: the lid may come off',
  'read-gauge': 'Read the gauge',
};

export const wantedWords = (wanted: Wanted): string => WANTED[wanted.code];
