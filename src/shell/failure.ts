/**
 * Two kinds of failure: one the grower can act on, said in plain words with what to try, and a bug of ours,
 * shown with its stack and the assurance that nothing recorded is lost.
 */

import { atMost, visible, visibleLines } from '../core/text.ts';
import { errorCode } from './files.ts';

/** Exit codes of the program, as documented in the README. */
export const EXIT = {
  ok: 0,
  bug: 1,
  usage: 2,
  badFile: 3,
  cannotWrite: 4,
  busyElsewhere: 5,
  notATerminal: 6,
  tooOld: 7,
} as const;
export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

export interface GrowerErrorOptions {
  readonly tryThis?: readonly string[];
  readonly exitCode?: ExitCode;
  readonly cause?: unknown;
}

/** A failure that is nobody's bug: `message` says what happened in one sentence. */
export class GrowerError extends Error {
  override readonly name = 'GrowerError';
  readonly tryThis: readonly string[];
  readonly exitCode: ExitCode;

  constructor(message: string, options: GrowerErrorOptions = {}) {
    super(message, options.cause === undefined ? {} : { cause: options.cause });
    this.tryThis = options.tryThis ?? [];
    this.exitCode = options.exitCode ?? EXIT.cannotWrite;
  }
}

interface PlainCause {
  readonly says: string;
  readonly tryThis: string;
}

/** An open file of a network folder that was away stays lost: only a new start opens it again. */
const networkGone: PlainCause = {
  says: 'the network folder has gone away',
  tryThis: 'Connect it again, then leave and start Stovehand again.',
};

// Names and meanings: POSIX.1-2017 <errno.h>.
const causes: Readonly<Record<string, PlainCause>> = {
  ENOSPC: { says: 'the disk is full', tryThis: 'Free some space.' },
  EDQUOT: { says: 'your share of the disk is used up', tryThis: 'Free some space.' },
  EFBIG: { says: 'the file is too large for this disk', tryThis: 'Use another folder with --home.' },
  EIO: { says: 'the disk reports an error', tryThis: 'Check the disk, or use another folder with --home.' },
  EROFS: { says: 'the disk can only be read', tryThis: 'Use another folder with --home.' },
  EACCES: {
    says: 'permission is refused',
    tryThis: 'Check who owns the folder, or use another with --home.',
  },
  EPERM: { says: 'permission is refused', tryThis: 'Check who owns the folder, or use another with --home.' },
  ENOENT: { says: 'there is no such file or folder', tryThis: 'Check the name.' },
  ENOTDIR: { says: 'a part of the path is not a folder', tryThis: 'Check the path.' },
  EISDIR: { says: 'it is a folder, not a file', tryThis: 'Name a file.' },
  EEXIST: { says: 'a file of that name is already there', tryThis: 'Choose another name.' },
  ENAMETOOLONG: { says: 'the name is too long', tryThis: 'Choose a shorter name.' },
  ELOOP: { says: 'its links lead in a circle', tryThis: 'Check the path.' },
  EMFILE: { says: 'too many files are open', tryThis: 'Close other programs.' },
  ENFILE: { says: 'too many files are open', tryThis: 'Close other programs.' },
  EBUSY: { says: 'another program is using it', tryThis: 'Close the other program.' },
  ESTALE: networkGone,
  ENOTCONN: networkGone,
  ENODEV: { says: 'the disk has gone away', tryThis: 'Connect it again.' },
  ENXIO: { says: 'the disk has gone away', tryThis: 'Connect it again.' },
  EPIPE: { says: 'nobody reads the output any more', tryThis: 'Run it again without the pipe.' },
};

/** A system error in words, or null when it is not a known one. */
export function plainCause(problem: unknown): PlainCause | null {
  const code = errorCode(problem);
  return Object.hasOwn(causes, code) ? (causes[code] ?? null) : null;
}

/** A system error as a sentence of the form "subject: reason."; unknown reasons are quoted. */
export function reason(problem: unknown): string {
  const known = plainCause(problem);
  if (known !== null) return known.says;
  return visible(problem instanceof Error ? problem.message : String(problem));
}

/** Runs the work and turns a system error into a sentence that begins with `what`. Throws GrowerError for those. */
export function explained<T>(what: string, work: () => T): T {
  try {
    return work();
  } catch (problem) {
    if (problem instanceof GrowerError) throw problem;
    const known = plainCause(problem);
    if (known === null) throw problem;
    const path = problem instanceof Error && 'path' in problem ? ` (${String(problem.path)})` : '';
    throw new GrowerError(`${what}: ${reason(problem)}${path}.`, {
      tryThis: [known.tryThis],
      exitCode: EXIT.cannotWrite,
      cause: problem,
    });
  }
}

export interface Circumstances {
  /** Journal of the batch that was running, if any. */
  readonly journal?: string | undefined;
}

/** The last words of the program: several lines, free of control characters, ending in a line feed. */
export function explain(problem: unknown, { journal }: Circumstances = {}): string {
  const lines: string[] = [];
  if (problem instanceof GrowerError) {
    lines.push(visible(problem.message), ...problem.tryThis.map(hint => `  ${visible(hint)}`));
  } else {
    const known = plainCause(problem);
    if (known !== null) {
      const path = problem instanceof Error && 'path' in problem ? String(problem.path) : '';
      lines.push(path === '' ? `Something failed: ${known.says}.` : `${visible(path)}: ${known.says}.`);
      lines.push(`  ${known.tryThis}`);
    } else {
      lines.push('Stovehand has met a mistake of its own and stopped. Nothing that was recorded is lost.');
      lines.push(visibleLines(stackOf(problem)));
    }
  }
  if (journal !== undefined) {
    lines.push(`The batch is kept in ${visible(journal)}; start Stovehand again to go on with it.`);
  }
  return `${lines.map(line => atMost(line, LONGEST_LINE)).join('\n')}\n`;
}

/** A name of a hundred thousand letters is not repeated in full; a stack is of many lines and stays whole. */
const LONGEST_LINE = 2000;

function stackOf(problem: unknown): string {
  if (problem instanceof Error) return problem.stack ?? problem.message;
  try {
    return String(problem);
  } catch {
    return 'something that has no description was thrown';
  }
}

/** The exit code that goes with `explain`. */
export function exitCodeFor(problem: unknown): ExitCode {
  if (problem instanceof GrowerError) return problem.exitCode;
  return plainCause(problem) === null ? EXIT.bug : EXIT.cannotWrite;
}
