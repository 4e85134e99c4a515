/** Histories at the stove for the tests of the estimate: a drive whose answers are priced as the session does it. */
import { step } from '../../../src/core/batch/machine.ts';
import { replay } from '../../../src/core/batch/replay.ts';
import type { BatchEvent } from '../../../src/core/batch/events.ts';
import type { Batch, BatchHeader } from '../../../src/core/batch/state.ts';
import { priced } from '../../../src/core/estimate/dips.ts';
import { MINUTE } from '../../../src/core/time.ts';
import { Drive } from '../../help/batch-drive.ts';
import { type Sample, sampleHeader } from '../../help/batch-kit.ts';

export const HEAT = 25 * MINUTE;
export const CLIMB = 8 * MINUTE;

export class Stove extends Drive {
  override tries(event: Parameters<Drive['tries']>[0], ms = 0): ReturnType<Drive['tries']> {
    const moved = step(this.run, { type: 'tick', t: this.batch.now + ms, wall: this.batch.wall + ms });
    return super.tries(moved.ok ? priced(event, moved.run.batch) : event, ms);
  }

  measure(celsius: number, of: 'centre' | 'vessel' = 'centre'): this {
    const refusal = this.tries({ type: 'measured', of, celsius });
    if (refusal) throw new Error(JSON.stringify(refusal));
    return this;
  }

  /** Flame lit, 25 min to steady steam, the vent, the valve closed. */
  toClimb(): this {
    return this.to('heat').wait(HEAT).to('climb') as this;
  }
  /** And eight minutes later at target. */
  toHold(): this {
    this.toClimb().wait(CLIMB).answer('at');
    return this;
  }
}

/** Without the soak, so that coach times stay small. */
export const stove = (
  sample: Sample = {},
  change: (header: BatchHeader) => BatchHeader = same => same,
): Stove => new Stove(change(sampleHeader({ soak: false, ...sample })));

/** The batch as another start of the program would find it. */
export function reopened(header: BatchHeader, events: readonly BatchEvent[]): Batch {
  const kept = JSON.parse(JSON.stringify({ header, events })) as {
    header: BatchHeader;
    events: BatchEvent[];
  };
  return replay(kept.header, kept.events).run.batch;
}
