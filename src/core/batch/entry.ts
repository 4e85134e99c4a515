/**
 * One line of a batch's journal: an event and what the machine's own clock said, so that a program started
 * later can tell how long it was away. Reading is suspicious: whatever is not an event of this version is
 * no entry.
 */
import { dipCostRefusal } from './lockout.ts';
import type { BatchEvent, DipCost, TypedPurpose } from './events.ts';
import { ASKS, type AskId } from './steps.ts';
import { TROUBLES } from './troubles.ts';

export interface Entry {
  readonly event: BatchEvent;
  /** Ms since the machine was started, and which start. */
  readonly uptime: number;
  readonly boot: string;
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isCount = (value: unknown): value is number =>
  typeof value === 'number' && Number.isFinite(value) && Math.abs(value) < 1e15;
const isText = (value: unknown): value is string => typeof value === 'string' && value.length < 200;

const PURPOSES: readonly TypedPurpose[] = ['end-batch', 'open-early', 'end-soak', 'end-hold', 'clock-right'];
const isAsk = (value: unknown): value is AskId => typeof value === 'string' && Object.hasOwn(ASKS, value);

/** Absent is fine, damaged is not: null. */
function readDipCost(value: unknown): { dipCost?: DipCost } | null {
  if (value === undefined) return {};
  if (!isRecord(value) || !isCount(value.addS) || !isCount(value.f0Min)) return null;
  const { addS, f0Min } = value;
  return dipCostRefusal({ addS, f0Min }) === null ? { dipCost: { addS, f0Min } } : null;
}

function readEvent(value: unknown): BatchEvent | null {
  if (!isRecord(value) || !isCount(value.t) || value.t < 0 || !isCount(value.wall)) return null;
  const at = { t: value.t, wall: value.wall };
  switch (value.type) {
    case 'tick':
    case 'undo':
      return { type: value.type, ...at };
    case 'gap': {
      if (value.why !== 'restart' && value.why !== 'asleep') return null;
      if (value.claimedMs === undefined) return { type: 'gap', why: value.why, ...at };
      return isCount(value.claimedMs) && value.claimedMs >= 0
        ? { type: 'gap', why: value.why, claimedMs: value.claimedMs, ...at }
        : null;
    }
    case 'answer': {
      if (!isAsk(value.ask) || !isText(value.choice)) return null;
      const dipCost = readDipCost(value.dipCost);
      if (dipCost === null) return null;
      const answer = { type: 'answer', ask: value.ask, choice: value.choice, ...dipCost, ...at } as const;
      if (value.amount === undefined) return answer;
      return isCount(value.amount) ? { ...answer, amount: value.amount } : null;
    }
    case 'measured':
      return (value.of === 'centre' || value.of === 'vessel') && isCount(value.celsius)
        ? { type: 'measured', of: value.of, celsius: value.celsius, ...at }
        : null;
    case 'trouble': {
      const found = TROUBLES.find(trouble => trouble.id === value.trouble);
      return found ? { type: 'trouble', trouble: found.id, ...at } : null;
    }
    case 'typed': {
      const purpose = PURPOSES.find(known => known === value.purpose);
      return purpose && isText(value.word) ? { type: 'typed', purpose, word: value.word, ...at } : null;
    }
    default:
      return null;
  }
}

/** The entry in a parsed line, or null when it is none. */
export function readEntry(value: unknown): Entry | null {
  if (!isRecord(value) || !isCount(value.uptime) || !isText(value.boot)) return null;
  const event = readEvent(value.event);
  return event ? { event, uptime: value.uptime, boot: value.boot } : null;
}
