/** Says what is new in a batch, line by line: the question, alerts, deviations, figures, minutes gone by. */
import { countOf } from '../core/batch/countdown.ts';
import { openAsk } from '../core/batch/lockout.ts';
import { placeOf } from '../core/batch/schedule.ts';
import type { Batch } from '../core/batch/state.ts';
import { choicesOf } from '../core/batch/steps.ts';
import { wantedNow } from '../core/batch/wanted.ts';
import { keptProbe } from '../core/estimate/probe-kept.ts';
import type { Session } from '../core/session.ts';
import { visibleLines } from '../core/text.ts';
import { askWords, choiceWords } from '../core/words/asks.ts';
import { stepCaution } from '../core/words/cautions.ts';
import { numberRows, rowWords } from '../core/words/estimate.ts';
import { stoveAdvice } from '../core/words/estimate-advice.ts';
import { keepOffer } from '../core/words/estimate-probe.ts';
import { doneTitle } from '../core/words/done.ts';
import { inoculationSteps } from '../core/record/inoculation.ts';
import { carriedAt, carriedLines } from '../core/words/next-time.ts';
import { STEP_NAMES } from '../core/words/steps.ts';
import { troubleWords } from '../core/words/troubles.ts';
import { wantedWords } from '../core/words/wanted.ts';
import { countText, tellingOf } from '../face/format.ts';
import { estimateShown, outcomeLines } from '../face/run-view.ts';

export const print = (text: string): void => void process.stdout.write(`${visibleLines(text)}\n`);

/** What has to be said again when it changes. */
export const signature = (batch: Batch): string =>
  [
    batch.step,
    openAsk(batch),
    batch.load,
    batch.cursor,
    batch.hold.belief,
    batch.kernels.length,
    batch.towels.length,
  ].join('/');

export class PlainTeller {
  readonly #session: Session;
  #said = '';
  #wanted = '';
  #minute = '';
  #troubles = 0;
  #readings = -1;
  #advice = '';

  constructor(session: Session) {
    this.#session = session;
    this.#troubles = session.run.batch.deviations.length;
  }

  /** Prints whatever is new: the question, an alert, a deviation, a minute gone by. */
  tell(): void {
    const { batch } = this.#session.run;
    this.#tellTroubles(batch);
    const now = signature(batch);
    if (now !== this.#said) {
      this.#said = now;
      this.#minute = this.#countOf(batch);
      this.ask();
    }
    const wanted = wantedNow(batch);
    const code = wanted?.code ?? '';
    if (code !== this.#wanted) {
      this.#wanted = code;
      if (wanted) print(`! ${wantedWords(wanted)}`);
    }
    const minute = this.#countOf(batch);
    if (minute !== this.#minute) {
      this.#minute = minute;
      if (minute !== '') print(`  ${minute}`);
    }
    this.#tellEstimate(batch);
    if (this.#session.trouble) print(`! ${this.#session.trouble}`);
  }

  /** The figures after every reading, and the advice of the moment when it is new. */
  #tellEstimate(batch: Batch): void {
    const telling = tellingOf(batch, batch.header.kitchen.units);
    const readings = batch.readings.length + batch.measured.length;
    const estimate = estimateShown(batch);
    if (estimate && readings !== this.#readings) {
      print(`  ${numberRows(batch, estimate, telling).map(rowWords).join('; ')}`);
    }
    this.#readings = readings;
    const advice = stoveAdvice(batch, telling) ?? '';
    // Its minutes and clock times move on by themselves; only another sentence is news.
    const gist = advice.replace(/[\d:.]+/g, '');
    if (gist !== this.#advice && advice !== '') print(`! ${advice}`);
    this.#advice = gist;
  }

  ask(): void {
    const { batch } = this.#session.run;
    const telling = tellingOf(batch, batch.header.kitchen.units);
    const { at, of } = placeOf(batch);
    const ask = openAsk(batch);
    print('');
    print(batch.finishedAt === null ? `[${at} of ${of}] ${STEP_NAMES[batch.step]}` : doneTitle(batch));
    print(askWords(batch, ask, telling));
    for (const line of this.#carried(batch)) print(`From last time: ${line}`);
    if (ask === 'clean') {
      const { culture, containers } = batch.header.recipe;
      for (const line of inoculationSteps(culture.form, containers.kind)) print(`  ${line}`);
    }
    const caution = stepCaution(batch);
    if (caution && batch.askSince === batch.since) print(`Caution: ${caution}`);
    const meant = new Map(outcomeLines(batch, telling).map(({ shown, means }) => [shown, `: ${means}`]));
    for (const { id, key } of choicesOf(ask)) {
      const means = meant.get(key) ?? '';
      print(`  ${key === 'space' ? 'Enter' : key}: ${choiceWords(batch, ask, id, telling)}${means}`);
    }
    const fit = batch.step === 'rest' ? keptProbe(batch) : null;
    if (fit) print(keepOffer(batch, fit));
  }

  /** What an earlier batch left: all of it at the first step, and once at the step it is about. */
  #carried(batch: Batch): readonly string[] {
    const { note } = batch.header.recipe;
    if (batch.step === 'gear') return carriedLines(note);
    return batch.askSince === batch.since ? carriedAt(note, batch.step) : [];
  }

  #tellTroubles(batch: Batch): void {
    for (const { trouble, takenBack } of batch.deviations.slice(this.#troubles)) {
      const { name, means, act } = troubleWords(trouble, batch);
      if (!takenBack) print(`! ${name}: ${means} ${act}`);
    }
    this.#troubles = batch.deviations.length;
  }

  /** The count to the whole minute; the last one by quarters. */
  #countOf(batch: Batch): string {
    const count = countOf(batch);
    if (!count || openAsk(batch) !== batch.ask || count.direction === 'up') return '';
    const grain = count.ms > 60_000 ? 60_000 : 15_000;
    return `${countText(Math.ceil(count.ms / grain) * grain, 'down')} left`;
  }
}
