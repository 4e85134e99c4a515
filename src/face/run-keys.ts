/**
 * What a key does on the run screen: a pure step from the screen's own state and a key to the next state
 * and, at most, one deed. The machine has the last word on every deed.
 */
import { WORDS } from '../core/batch/machine.ts';
import { openAsk } from '../core/batch/lockout.ts';
import { fillingsOf, numbersOf, recipeOf } from '../core/batch/moves.ts';
import { hydratedKgOf } from '../core/batch/portions.ts';
import type { TypedPurpose } from '../core/batch/events.ts';
import type { Batch, MeasuredPlace, Run } from '../core/batch/state.ts';
import { type AmountKind, type AskId, choicesOf } from '../core/batch/steps.ts';
import type { TroubleId } from '../core/batch/troubles.ts';
import { keptProbe } from '../core/estimate/probe-kept.ts';
import type { Units } from '../core/kitchen.ts';
import type { Deed } from '../core/session.ts';
import { unusualDose } from '../core/words/asks.ts';
import { amountOf, fieldText, measureFor, typeAmount } from './amounts.ts';
import { onMeasure, onNumbers, onThermometer, onWhere } from './estimate-keys.ts';
import { actOf } from './keymap.ts';
import type { KeyName } from './keys.ts';
import { NOT_THE_WORD, onCauses, onEnds, onTrouble, typeWord } from './trouble-keys.ts';

export type Panel =
  | { readonly kind: 'ask' }
  | {
      readonly kind: 'amount';
      readonly ask: AskId;
      readonly choice: string;
      readonly of: AmountKind;
      readonly text: string;
      readonly fresh: boolean;
    }
  /** An amount far from the usual one: taken only after a second look, or another number is typed instead. */
  | {
      readonly kind: 'sure';
      readonly amount: Extract<Panel, { kind: 'amount' }>;
      readonly deed: Deed;
      readonly says: string;
    }
  | { readonly kind: 'trouble'; readonly page: number }
  | { readonly kind: 'ends'; readonly trouble: TroubleId; readonly text: string }
  | { readonly kind: 'causes'; readonly of: TroubleId; readonly page: number }
  | { readonly kind: 'where' }
  | {
      readonly kind: 'measure';
      readonly of: MeasuredPlace;
      readonly text: string;
      readonly fresh: boolean;
    }
  | { readonly kind: 'numbers'; readonly page: number }
  | { readonly kind: 'pictures' }
  | { readonly kind: 'ending' }
  | { readonly kind: 'word'; readonly purpose: TypedPurpose; readonly text: string }
  /** `to`: the batch as it was before the answer that would be taken back. */
  | { readonly kind: 'undo'; readonly to: Batch }
  | { readonly kind: 'help'; readonly page: number }
  | { readonly kind: 'wipe'; readonly unlocking: boolean }
  | { readonly kind: 'leave' };

export const ASKING: Panel = { kind: 'ask' };

/** A number or a word is being typed, where fingers may be quicker. */
export const isTyping = ({ kind }: Panel): boolean =>
  kind === 'amount' || kind === 'word' || kind === 'measure' || kind === 'ends';

/** Ways on from the end of a batch: rows of `done` in the keymap. */
export const AFTER_ACTS = ['bags', 'labels', 'calendar', 'card', 'next', 'record', 'save', 'open'] as const;
export type AfterAct = (typeof AFTER_ACTS)[number];

export interface Pressed {
  readonly panel: Panel;
  readonly deed?: Deed;
  readonly leave?: true;
  /** Keep what the thermometer of this batch measured in the kitchen. */
  readonly keepProbe?: true;
  /** A way on from the end of a batch. */
  readonly after?: AfterAct;
  /** A sentence for the notice line. */
  readonly says?: string;
}

/** Acts that shorten something, as far as they exist in this step. */
export function endingsOf(batch: Batch): readonly TypedPurpose[] {
  const here: TypedPurpose[] = [];
  if (batch.step === 'soak') here.push('end-soak');
  if (batch.step === 'hold') here.push('end-hold');
  if (batch.ask === 'shut' && batch.lock && batch.now < batch.lock.coolUntil) here.push('open-early');
  return [...here, 'end-batch'];
}

/** The value a number field begins with: what was planned, in inside units. */
function plannedAmount(batch: Batch, ask: AskId): number {
  switch (ask) {
    case 'dry-weight':
      return batch.dryKg;
    case 'draining':
      return batch.drainedKg ?? hydratedKgOf(batch) / fillingsOf(batch);
    case 'fill':
      return recipeOf(batch).containers.fillKg;
    case 'cooker-water':
      return numbersOf(batch).cookerWaterL;
    case 'inject':
      return recipeOf(batch).culture.perContainer;
    default:
      return batch.readings.findLast(reading => reading.kPa !== null)?.kPa ?? numbersOf(batch).targetKPa;
  }
}

const onUndo = (to: Batch | undefined): Pressed =>
  to ? { panel: { kind: 'undo', to } } : { panel: ASKING, says: 'Nothing left to take back.' };

/** Practice leads nowhere afterwards. */
const isOver = ({ finishedAt, header }: Batch): boolean => finishedAt !== null && !header.practice;

function onAsk(run: Run, key: KeyName, units: Units): Pressed {
  const { batch } = run;
  const ask = openAsk(batch);
  const plain = key === 'enter' ? 'space' : key;
  const choice = choicesOf(ask).find(entry => entry.key === plain);
  if (choice) {
    if (choice.id === 'clock-right') return { panel: { kind: 'word', purpose: 'clock-right', text: '' } };
    if (choice.amount) {
      const scale = measureFor(choice.amount, units);
      const text = fieldText(scale.fromInside(plannedAmount(batch, ask)), scale);
      return { panel: { kind: 'amount', ask, choice: choice.id, of: choice.amount, text, fresh: true } };
    }
    return { panel: ASKING, deed: { type: 'answer', ask, choice: choice.id } };
  }
  const after = isOver(batch) ? AFTER_ACTS.find(act => act === actOf('done', key)) : undefined;
  if (after) return { panel: ASKING, after };
  switch (actOf('run', key)) {
    case 'trouble':
      return { panel: { kind: 'trouble', page: 0 } };
    case 'numbers':
      return { panel: { kind: 'numbers', page: 0 } };
    case 'pictures':
      return { panel: { kind: 'pictures' } };
    case 'measure':
      return onThermometer(batch, units);
    case 'keep':
      return keptProbe(batch)
        ? { panel: ASKING, keepProbe: true }
        : { panel: ASKING, says: 'No thermometer in a bag has measured anything to keep.' };
    case 'ending':
      return { panel: { kind: 'ending' } };
    case 'undo':
      return onUndo(run.past.at(-1));
    case 'wipe':
      return { panel: { kind: 'wipe', unlocking: false } };
    case 'help':
      return { panel: { kind: 'help', page: 0 } };
    case 'leave':
      return batch.finishedAt !== null ? { panel: ASKING, leave: true } : { panel: { kind: 'leave' } };
    case 'back':
      return batch.finishedAt !== null ? { panel: ASKING, leave: true } : { panel: ASKING };
    case 'plain':
      if (choicesOf(ask).length === 0) return { panel: ASKING };
      return { panel: ASKING, says: 'This is a judgement: answer it with its number.' };
    default:
      return { panel: ASKING };
  }
}

type Amounting = Extract<Panel, { kind: 'amount' }>;

function onAmount(batch: Batch, panel: Amounting, key: KeyName, units: Units): Pressed {
  const scale = measureFor(panel.of, units);
  if (key === 'esc' || key === 'q') return { panel: ASKING };
  if (key === 'enter' || key === 'space') {
    const amount = amountOf(panel.text, scale);
    if (!Number.isFinite(amount)) return { panel, says: 'Type a number, or Esc.' };
    const deed: Deed = { type: 'answer', ask: panel.ask, choice: panel.choice, amount };
    const unusual = panel.ask === 'inject' ? unusualDose(batch, amount) : null;
    return unusual === null
      ? { panel: ASKING, deed }
      : { panel: { kind: 'sure', amount: panel, deed, says: unusual } };
  }
  const text = typeAmount(panel.text, panel.fresh, key, scale);
  return { panel: text === null ? panel : { ...panel, text, fresh: false } };
}

/** Pictures of the open question over the whole screen: the answers work there too. */
function onPictures(run: Run, key: KeyName, units: Units, watching: boolean): Pressed {
  return /^[1-4]$/.test(key) && !watching ? onAsk(run, key, units) : { panel: ASKING };
}

function onEnding(batch: Batch, key: KeyName): Pressed {
  if (key === 'esc' || key === 'e' || key === 'q') return { panel: ASKING };
  const purpose = endingsOf(batch)[Number(key) - 1];
  return purpose ? { panel: { kind: 'word', purpose, text: '' } } : { panel: { kind: 'ending' } };
}

function onWord(panel: Extract<Panel, { kind: 'word' }>, key: KeyName): Pressed {
  if (key === 'enter') {
    const right = panel.text === WORDS[panel.purpose];
    return right
      ? { panel: ASKING, deed: { type: 'typed', purpose: panel.purpose, word: panel.text } }
      : { panel: { ...panel, text: '' }, says: NOT_THE_WORD };
  }
  const text = typeWord(panel.text, key);
  return { panel: text === null ? ASKING : { ...panel, text } };
}

/** What a screen that only watches may do: look and leave. */
export const WATCHERS_KEYS: readonly KeyName[] = ['q', '?', 'ctrl-c', 'n', 'p'];

/** One key on the run screen. `watching` screens take no answers. */
export function pressOnRun(panel: Panel, run: Run, key: KeyName, units: Units, watching: boolean): Pressed {
  if (key === 'ctrl-c' && panel.kind !== 'leave' && panel.kind !== 'ask') return { panel: { kind: 'leave' } };
  switch (panel.kind) {
    case 'ask':
      if (watching && !WATCHERS_KEYS.includes(key)) {
        return { panel, says: 'Another Stovehand runs this batch: answer there.' };
      }
      return watching && (key === 'q' || key === 'ctrl-c') ? { panel, leave: true } : onAsk(run, key, units);
    case 'amount':
      return onAmount(run.batch, panel, key, units);
    case 'sure':
      return key === '1' ? { panel: ASKING, deed: panel.deed } : { panel: { ...panel.amount, fresh: true } };
    case 'trouble':
      return onTrouble(panel, run.batch, key);
    case 'ends':
      return onEnds(panel, key);
    case 'causes':
      return onCauses(panel, key);
    case 'where':
      return onWhere(run.batch, key, units);
    case 'measure':
      return onMeasure(panel, key, units);
    case 'numbers':
      return onNumbers(panel, key);
    case 'pictures':
      return onPictures(run, key, units, watching);
    case 'ending':
      return onEnding(run.batch, key);
    case 'word':
      return onWord(panel, key);
    case 'undo':
      if (key === '1')
        return { panel: ASKING, deed: { type: 'undo' }, says: 'Taken back: this question is open again.' };
      return { panel: ASKING, says: 'Nothing was taken back.' };
    case 'help':
      return { panel: actOf('run', key) === 'help' ? { kind: 'help', page: panel.page + 1 } : ASKING };
    case 'wipe':
      if (panel.unlocking && key === 'enter') return { panel: ASKING, says: 'The keyboard works again.' };
      return { panel: { kind: 'wipe', unlocking: key === 'w' } };
    case 'leave':
      if (key === 'q' || key === 'ctrl-c') return { panel: ASKING, leave: true };
      return { panel: ASKING };
  }
}
