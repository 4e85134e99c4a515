/** A file layer that fails on demand, like a disk does: full, read-only, failing, cut short. */
import { type FileLayer, nodeFiles } from '../../src/shell/files.ts';

export type Operation = keyof FileLayer;

export interface Fault {
  readonly on: Operation;
  /** Error code such as ENOSPC. */
  readonly code: string;
  /** Calls that still succeed before it; none unless said. */
  readonly after?: number;
  /** Calls that fail; all of them unless said. */
  readonly times?: number;
  /** For `write`: bytes that reach the disk before the failure. */
  readonly bytes?: number;
}

export interface FaultyFiles {
  readonly files: FileLayer;
  /** Every operation asked for, in order. */
  readonly asked: Operation[];
  break(...faults: readonly Fault[]): void;
  mend(): void;
}

export const systemError = (code: string): Error => Object.assign(new Error(`${code}: as planned`), { code });

export function faultyFiles(base: FileLayer = nodeFiles): FaultyFiles {
  const asked: Operation[] = [];
  let faults: { fault: Fault; seen: number }[] = [];

  /** The fault due for this call, if any. */
  const due = (on: Operation): Fault | null => {
    asked.push(on);
    for (const state of faults) {
      if (state.fault.on !== on) continue;
      state.seen += 1;
      const turn = state.seen - (state.fault.after ?? 0);
      if (turn > 0 && turn <= (state.fault.times ?? Number.POSITIVE_INFINITY)) return state.fault;
    }
    return null;
  };

  const wrap = <K extends Exclude<Operation, 'write'>>(on: K): FileLayer[K] => {
    const work = base[on] as (...args: unknown[]) => unknown;
    const wrapped = (...args: unknown[]) => {
      const fault = due(on);
      if (fault !== null) throw systemError(fault.code);
      return work(...args);
    };
    return wrapped as FileLayer[K];
  };

  const files: FileLayer = {
    open: wrap('open'),
    close: wrap('close'),
    read: wrap('read'),
    sync: wrap('sync'),
    truncate: wrap('truncate'),
    facts: wrap('facts'),
    look: wrap('look'),
    rename: wrap('rename'),
    link: wrap('link'),
    remove: wrap('remove'),
    folder: wrap('folder'),
    list: wrap('list'),
    syncFolder: wrap('syncFolder'),
    write: (fd, bytes, position) => {
      const fault = due('write');
      if (fault === null) return base.write(fd, bytes, position);
      if (fault.bytes !== undefined) base.write(fd, bytes.subarray(0, fault.bytes), position);
      throw systemError(fault.code);
    },
  };

  return {
    files,
    asked,
    break: (...planned) => {
      faults = planned.map(fault => ({ fault, seen: 0 }));
    },
    mend: () => {
      faults = [];
    },
  };
}
