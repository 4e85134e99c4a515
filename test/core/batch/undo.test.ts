import { describe, expect, it } from 'vitest';
import { isCounting } from '../../../src/core/batch/advance.ts';
import { openAsk, soakEarliest, towelReady } from '../../../src/core/batch/lockout.ts';
import { UNDO_DEPTH, WORDS, step } from '../../../src/core/batch/machine.ts';
import type { BatchEvent } from '../../../src/core/batch/events.ts';
import type { Batch, BatchHeader, Lock } from '../../../src/core/batch/state.ts';
import { HOUR, MINUTE, SECOND } from '../../../src/core/time.ts';
import { Drive } from '../../help/batch-drive.ts';
import { eventsAt, explore } from '../../help/batch-explore.ts';
import { VARIANTS, sampleHeader } from '../../help/batch-kit.ts';

interface TakenBack {
  readonly before: Batch;
  readonly event: BatchEvent;
  readonly undone: Batch;
}

const MS = 3 * HOUR;

/** Every answer, trouble, reading and typed word of every state, taken back three hours after it was given. */
function everyUndo(header: BatchHeader): readonly TakenBack[] {
  const all: TakenBack[] = [];
  for (const { run } of explore(header, 0).found) {
    for (const [, bare] of eventsAt(run.batch)) {
      if (['tick', 'gap', 'undo'].includes(bare.type)) continue;
      const event = { ...bare, t: run.batch.now, wall: run.batch.wall } as BatchEvent;
      const outcome = step(run, event);
      if (!outcome.ok || outcome.run.past.length === 0) continue;
      const { now, wall } = outcome.run.batch;
      const undone = step(outcome.run, { type: 'undo', t: now + MS, wall: wall + MS });
      if (!undone.ok) throw new Error(`undo refused after ${JSON.stringify(event)}`);
      all.push({ before: run.batch, event, undone: undone.run.batch });
    }
  }
  return all;
}

const same = (a: unknown, b: unknown) => JSON.stringify(a) === JSON.stringify(b);

describe.each(Object.entries(VARIANTS))('undo, after every answer of every state: %s', (_, header) => {
  const all = everyUndo(header);
  /** The first few that break a rule, in words. */
  const offenders = (keeps: (taken: TakenBack) => boolean) =>
    all
      .filter(taken => !keeps(taken))
      .slice(0, 5)
      .map(
        ({ before, event, undone }) => `${before.step}/${before.ask} ${JSON.stringify(event)} ${undone.step}`,
      );

  it('is tried often', () => {
    expect(all.length).toBeGreaterThan(1000);
    expect(all.filter(({ before }) => before.lock).length).toBeGreaterThan(100);
    expect(all.filter(({ before }) => before.hold.creditMs > 0).length).toBeGreaterThan(20);
  });

  it('asks the same question again; only the vent has to be steady anew', () => {
    expect(
      offenders(({ before, undone }) => undone.step === (before.step === 'vent' ? 'heat' : before.step)),
    ).toEqual([]);
    expect(offenders(({ before, undone }) => before.step === 'vent' || undone.ask === before.ask)).toEqual(
      [],
    );
    expect(offenders(({ before, undone }) => same(undone.containers, before.containers))).toEqual([]);
  });

  it('credits no time: not to the hold, the soak, the towel or the vent', () => {
    expect(offenders(({ before, undone }) => undone.now === before.now + MS)).toEqual([]);
    expect(offenders(({ before, undone }) => undone.hold.creditMs <= before.hold.creditMs)).toEqual([]);
    expect(offenders(({ undone }) => !isCounting(undone) && undone.step !== 'vent')).toEqual([]);
    const left = (batch: Batch, until: number) => until - batch.now;
    expect(
      offenders(
        ({ before, undone }) =>
          before.ask !== 'soaking' ||
          left(undone, soakEarliest(undone)) === left(before, soakEarliest(before)),
      ),
    ).toEqual([]);
    expect(
      offenders(
        ({ before, undone }) =>
          before.ask !== 'towel' || left(undone, towelReady(undone)) === left(before, towelReady(before)),
      ),
    ).toEqual([]);
  });

  it('shortens no lock', () => {
    const kept = (before: Lock, undone: Lock | null) =>
      undone !== null &&
      undone.heatOffAt === before.heatOffAt &&
      undone.pressureUntil >= before.pressureUntil &&
      undone.coolUntil >= before.coolUntil;
    expect(offenders(({ before, undone }) => before.lock === null || kept(before.lock, undone.lock))).toEqual(
      [],
    );
  });

  it('keeps every deviation, and says of the new ones that they were taken back', () => {
    const kept = ({ before, undone }: TakenBack) => undone.deviations.slice(0, before.deviations.length);
    const added = ({ before, undone }: TakenBack) => undone.deviations.slice(before.deviations.length);
    expect(offenders(taken => same(kept(taken), taken.before.deviations))).toEqual([]);
    expect(offenders(taken => added(taken).every(({ takenBack }) => takenBack))).toEqual([]);
    expect(offenders(taken => taken.event.type !== 'trouble' || added(taken).length > 0)).toEqual([]);
  });
});

describe('undo', () => {
  const header = sampleHeader({ soak: false });

  it('does not take back what a clock or a closed program said', () => {
    const drive = new Drive(header).to('hold').answer('above').gap(HOUR, 'restart').undo();
    expect(drive.batch.deviations.map(({ trouble, takenBack }) => [trouble, takenBack])).toEqual([
      ['above-target', true],
      ['computer-restarted', false],
      ['away', false],
    ]);
  });

  it('asks again about a gauge that nobody saw, and about a clock that nobody vouched for', () => {
    const away = new Drive(header).to('hold').gap(HOUR).answer('unknown').wait(MINUTE).undo();
    expect(openAsk(away.batch)).toBe('away-gauge');
    const claim = new Drive(header).to('gear').gap(MINUTE, 'restart', HOUR).answer('clock-wrong').undo();
    expect(openAsk(claim.batch)).toBe('clock-claim');
  });

  it('back from heat-off into the hold counts nothing until the gauge is answered', () => {
    const drive = new Drive(header)
      .to('hold')
      .wait(70 * MINUTE)
      .answer('at')
      .wait(3 * HOUR);
    expect(drive.batch.step).toBe('heat-off');
    drive.undo().wait(HOUR);
    expect(drive.batch).toMatchObject({ step: 'hold', hold: { creditMs: 70 * MINUTE, belief: 'unknown' } });
    expect(drive.answer('at').wait(MINUTE).batch.hold.creditMs).toBe(71 * MINUTE);
  });

  it('of "flame off" leads to a lock that ends later, never earlier', () => {
    const drive = new Drive(header).to('cool');
    const first = drive.batch.lock?.pressureUntil ?? Infinity;
    drive.wait(MINUTE).undo();
    expect(drive.batch).toMatchObject({ step: 'heat-off', lock: null });
    drive.answer('flame-off');
    expect(drive.batch.lock?.pressureUntil).toBe(first + MINUTE);
  });

  it('gives an early opening its lock back', () => {
    const drive = new Drive(header).toAsk('shut');
    const until = drive.batch.lock?.coolUntil;
    drive.type('open-early').answer('lid-open').undo();
    expect(drive.batch.lock?.coolUntil).toBeLessThan(until ?? 0);
    drive.undo();
    expect(drive.batch.lock?.coolUntil).toBe(until);
  });

  it('takes "lid on" back as the last answer, but not once something was answered under the lid', () => {
    const fresh = new Drive(header).to('heat').wait(MINUTE);
    expect(fresh.undo().batch.step).toBe('load');
    const steaming = new Drive(header).to('heat').answer('spurts').undo();
    expect(steaming.batch.step).toBe('heat');
    expect(steaming.tries({ type: 'undo' })?.code).toBe('nothing-to-undo');
  });

  it(`reaches ${UNDO_DEPTH} answers back and no further`, () => {
    const drive = new Drive(header).to('simmer').answers('simmers', 'kernels-cut');
    for (let look = 0; look < 10; look += 1) drive.answers('white-core', 'none', 'kernels-cut');
    let undone = 0;
    while (drive.tries({ type: 'undo' }) === null) undone += 1;
    expect(undone).toBe(UNDO_DEPTH);
  });

  it('takes an ending back from "done"', () => {
    const drive = new Drive(header).to('portion').type('end-batch', WORDS['end-batch']).wait(SECOND).undo();
    expect(drive.batch).toMatchObject({ step: 'portion', endedEarly: null, finishedAt: null });
  });
});
