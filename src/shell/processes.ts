/** What can be found out about the processes of this machine without starting one. */

import { readFileSync, readlinkSync } from 'node:fs';
import { uptime } from 'node:os';
import { identifyStart } from './clock.ts';
import { errorCode } from './files.ts';

export interface ProcessWatch {
  /** Start of the machine, `id@machine`. */
  readonly boot: string;
  /** Ms since that start. */
  readonly uptime: number;
  /** The process namespace, within which a number means one process; empty where there is only one. */
  readonly space: string;
  /** When a process began, by the kernel's count; empty when not known, null when there is no such process. */
  began(pid: number): string | null;
}

export function watchProcesses(): ProcessWatch {
  return { boot: identifyStart().boot, uptime: uptime() * 1000, space: nameSpace(), began: beganAt };
}

function nameSpace(): string {
  try {
    return readlinkSync('/proc/self/ns/pid');
  } catch {
    return '';
  }
}

function beganAt(pid: number): string | null {
  try {
    // Signal 0 only asks; another person's process answers EPERM, which is an answer.
    process.kill(pid, 0);
  } catch (problem) {
    if (errorCode(problem) === 'ESRCH') return null;
  }
  let stat: string;
  try {
    stat = readFileSync(`/proc/${pid}/stat`, 'latin1');
  } catch {
    return '';
  }
  return beganByStat(stat);
}

/**
 * Start time out of a line of /proc/PID/stat, field 22, in kernel ticks; null for a process that has ended
 * and only waits to be collected (state Z or X). Source: proc_pid_stat(5).
 */
export function beganByStat(stat: string): string | null {
  // Field 2 is the program's name in parentheses and may itself hold blanks and parentheses.
  const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
  const state = fields[0] ?? '';
  if (state === 'Z' || state === 'X') return null;
  return fields[19] ?? '';
}
