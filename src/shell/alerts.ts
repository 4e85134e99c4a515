/**
 * Makes the program heard and seen outside its window: bell, title, progress, notification, speech, each as
 * far as the person wishes. Danger does not ask whether the house sleeps.
 */

import type { AlertWishes } from '../core/kitchen.ts';
import type { Alert, Alerter, Outward } from '../core/ports.ts';
import { SECOND } from '../core/time.ts';
import { BEL, BELLS, isQuiet, nextRing } from './bell.ts';
import type { Speech } from './speech.ts';
import {
  keepTitleSequence,
  notifySequence,
  progressSequence,
  returnTitleSequence,
  type TerminalKind,
  titleSequence,
} from './terminal-signals.ts';

export interface AlertSurroundings {
  readonly terminal: TerminalKind;
  readonly wishes: AlertWishes;
  /** Writes to the terminal at once. */
  write(text: string): void;
  /** Local time, minutes after midnight. */
  minuteOfDay(): number;
  /** Ms by a clock that never jumps. */
  steady(): number;
  /** Calls back after so many ms; the answer takes it back. */
  schedule(ms: number, work: () => void): () => void;
  /** null when the system has no speech program. */
  readonly speech: Speech | null;
  /** Whether the bell may ring at all: not when the output is no terminal. */
  readonly canRing: boolean;
}

const NAME = 'Stovehand';
/** Some terminals take progress away that nobody repeats (Ghostty: after 15 s). */
const REPEAT_PROGRESS = 10 * SECOND;

export function createAlerter(around: AlertSurroundings): Alerter {
  const { terminal, write, schedule, speech } = around;
  let wishes = around.wishes;
  const pending = new Set<() => void>();
  let titleShown: string | null = null;
  let progressShown: { text: string; at: number } | null = null;

  const later = (ms: number, work: () => void) => {
    const cancel = schedule(ms, () => {
      pending.delete(cancel);
      work();
    });
    pending.add(cancel);
  };
  const silence = () => {
    for (const cancel of pending) cancel();
    pending.clear();
    speech?.stop();
  };
  const mayDisturb = ({ kind }: Alert) =>
    kind === 'danger' || !isQuiet(around.minuteOfDay(), wishes.quietFromMin, wishes.quietToMin);

  const send = (text: string) => {
    if (text !== '') write(text);
  };
  const ring = (alert: Alert, rung: number) => {
    const { beats } = BELLS[alert.kind];
    if (mayDisturb(alert)) {
      if (wishes.bell && around.canRing) {
        for (const beat of beats) beat === 0 ? send(BEL) : later(beat, () => send(BEL));
      }
      if (wishes.terminal) send(notifySequence(terminal, NAME, alert.says));
      if (wishes.speech) speech?.speak(alert.says);
    }
    // Quiet hours only mute: the ringing goes on when they end unanswered.
    const pause = nextRing(alert.kind, rung);
    if (pause !== null) later((beats.at(-1) ?? 0) + pause, () => ring(alert, rung + 1));
  };

  const clearOutward = () => {
    if (titleShown !== null) send(returnTitleSequence(terminal));
    if (progressShown !== null) send(progressSequence(terminal, null));
    titleShown = null;
    progressShown = null;
  };
  const showTitle = (title: string) => {
    if (title === titleShown) return;
    if (titleShown === null) send(keepTitleSequence(terminal));
    titleShown = title;
    send(titleSequence(terminal, title));
  };
  const showProgress = ({ progress }: Outward) => {
    if (progress === null && progressShown === null) return;
    const text = progressSequence(terminal, progress);
    const at = around.steady();
    const fresh = progressShown !== null && at - progressShown.at < REPEAT_PROGRESS;
    if (fresh && progressShown?.text === text) return;
    send(text);
    progressShown = progress === null ? null : { text, at };
  };

  return {
    raise: alert => {
      silence();
      ring(alert, 1);
    },
    answered: silence,
    show: outward => {
      if (!wishes.terminal) return;
      showTitle(outward.title);
      showProgress(outward);
    },
    wish: next => {
      if (!next.terminal) clearOutward();
      if (!next.speech) speech?.stop();
      wishes = next;
    },
    close: () => {
      silence();
      clearOutward();
    },
  };
}
