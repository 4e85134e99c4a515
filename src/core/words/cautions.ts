/** Cautions: one short line at the step where it matters, and the full list for the README and the help. */
import type { Batch } from '../batch/state.ts';
import type { StepId } from '../batch/steps.ts';
import { inItsWord } from './count.ts';

export const STEP_CAUTIONS: Readonly<Partial<Record<StepId, string>>> = {
  gear: "The maker's manual wins over this coach. Look through the vent pipe; check gasket, safety valve and gauge.",
  measure: 'Grain swells to nearly twice its volume: leave a hand of headspace.',
  simmer:
    'Boiling starch burns and foams over. Never cook loose grain under pressure: its foam blocks the vent.',
  drain: 'A full pot is heavy and scalding: ladle it out, or lift it with two and dry oven gloves.',
  load: 'Weigh what stands on the hob against the limit in its manual. Nothing may touch lid or vent.',
  heat: 'Stay with it. A gauge that rises over the open valve: blocked vent, heat off. Camp burners outdoors only: carbon monoxide.',
  vent: 'Steam burns without being seen. Keep face and hands away from the valve.',
  climb: 'Never go above the pressure marked on the cooker.',
  hold: 'Never leave a cooker alone under heat. Smell of burning, or no steam at all: heat off.',
  'heat-off': 'Do not open, do not cool with water, do not lift the weight.',
  cool: 'Zero on a gauge does not prove zero. Never force a lid.',
  unload: 'Open the lid away from your face. The core of a bag is hotter than the pot.',
  inoculate: 'Alcohol and flame do not meet: let hands, ports and table dry first.',
  done: 'Not food, and no process for preserving food. Contaminated containers stay closed.',
};

/** The caution of the step a batch is in, in its own word for bag or jar; null for a step without one. */
export function stepCaution({ step, header }: Pick<Batch, 'step' | 'header'>): string | null {
  const caution = STEP_CAUTIONS[step];
  return caution === undefined ? null : inItsWord(caution, header.recipe.containers.kind);
}

export const ALL_CAUTIONS: readonly string[] = [
  "The maker's manual wins over the coach, and so do local rules and licensed practice.",
  'Check vent pipe, gasket, safety valve and gauge before every batch. A dial gauge is tested every year; one that is off by more than 2 psi is replaced.',
  'Never leave a cooker under heat unattended, never go above its marked pressure, never force or open a lid under pressure, never cool it with water.',
  'Zero on a gauge does not prove zero. A lid held down by vacuum is not a lid under pressure, but both are left alone until they come off by themselves.',
  'Steam burns, and is not seen where it leaves the valve. Open lids away from the face.',
  "Starch foam blocks vents. Never cook loose grain under pressure beyond the maker's fill line; keep bags away from lid and vent.",
  'Camp stoves, charcoal and outdoor burners belong outdoors: carbon monoxide. With a gas hob, run the hood and open a window.',
  'A full cooker can weigh 14 kg and more. Lift it cold, with two. Glass hobs have limits: ask the maker of the hob.',
  'Alcohol and flame do not meet. Let hands, ports and surfaces dry before any flame.',
  'Spores and mould are not to be inhaled. Contaminated bags stay closed and leave the house closed.',
  'This is no validated process and no way to preserve food. Every lethality figure is an estimate with a band, never a proof that something is sterile.',
  'Culinary species only, and only those that are lawful where you live.',
];
