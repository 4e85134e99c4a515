/**
 * One writer for each batch. A lock is a file that names its holder; it is created whole, by giving a second
 * name to a finished draft. The lock of a dead holder is replaced, never removed, and only by the one program
 * that holds a lock on that very corpse: of any number of programs started at once, one wins.
 */

import { dirname } from 'node:path';
import { attempt, createWhole, errorCode, type FileLayer, nodeFiles, readStart } from './files.ts';
import { type ProcessWatch, watchProcesses } from './processes.ts';

/** Who holds a lock, as the lock file says. */
export interface LockHolder {
  readonly id: string;
  readonly pid: number;
  /** Wall time at which the lock was taken, ms since 1970. */
  readonly since: number;
  /** Start of the machine, `id@machine`. */
  readonly boot: string;
  /** Uptime of the machine at that moment, ms. */
  readonly uptime: number;
  /** When the process began by the kernel's count; empty where the system does not tell. */
  readonly began: string;
  /** Within which numbers of processes mean the same: the process namespace; empty where there is one only. */
  readonly space: string;
}

export type Lock =
  | { readonly held: true; release(): void }
  | {
      readonly held: false;
      /** null when the lock changed hands too quickly to tell. */
      readonly by: LockHolder | null;
      /** The holder is on another machine or in another container: whether it lives cannot be told from here. */
      readonly elsewhere: boolean;
      readonly path: string;
    };

/** Takes the lock, or says who has it. Throws what the file layer throws when the folder is unusable. */
export function takeLock(
  path: string,
  files: FileLayer = nodeFiles,
  watch: ProcessWatch = watchProcesses(),
): Lock {
  files.folder(dirname(path));
  const me: LockHolder = {
    id: crypto.randomUUID(),
    pid: process.pid,
    since: Date.now(),
    boot: watch.boot,
    uptime: watch.uptime,
    began: watch.began(process.pid) ?? '',
    space: watch.space,
  };
  return acquire(path, me, files, watch);
}

/** Locks that this process seeks or holds: one that names it and is not among them is a leftover. */
const mine = new Set<string>();

function acquire(path: string, me: LockHolder, files: FileLayer, watch: ProcessWatch): Lock {
  mine.add(me.id);
  let lock: Lock | null = null;
  try {
    lock = seek(path, me, files, watch);
    return lock;
  } finally {
    if (lock?.held !== true) mine.delete(me.id);
  }
}

function seek(path: string, me: LockHolder, files: FileLayer, watch: ProcessWatch): Lock {
  // Each round ends in an answer unless the lock changed hands meanwhile.
  for (let round = 0; round < 50; round += 1) {
    if (createLock(path, me, files)) return held(path, me, files);
    const other = readLock(path, files);
    if (other === null) continue;
    const state = stateOf(other, watch);
    if (state !== 'dead') return { held: false, by: other, elsewhere: state === 'elsewhere', path };
    const corpse = acquire(
      `${path}.${other.id.slice(0, 8)}`,
      { ...me, id: crypto.randomUUID() },
      files,
      watch,
    );
    if (!corpse.held) return corpse;
    try {
      const now = readLock(path, files);
      if (now?.id !== other.id) continue;
      replaceLock(path, me, files);
      return held(path, me, files);
    } finally {
      corpse.release();
    }
  }
  return { held: false, by: null, elsewhere: false, path };
}

function held(path: string, me: LockHolder, files: FileLayer): Lock {
  let holding = true;
  return {
    held: true,
    release: () => {
      if (!holding) return;
      holding = false;
      mine.delete(me.id);
      // What cannot be removed now is a leftover that the next one to come replaces.
      attempt(() => {
        const now = readLock(path, files);
        if (now?.id === me.id) files.remove(path);
      });
    },
  };
}

function withDraft<T>(path: string, me: LockHolder, files: FileLayer, use: (draft: string) => T): T {
  const draft = `${path}.${me.id}.new`;
  createWhole(files, draft, Buffer.from(JSON.stringify(me)));
  try {
    return use(draft);
  } finally {
    // A draft that stays behind is in nobody's way; a lock that was taken must not be lost over it.
    attempt(() => {
      if (files.look(draft) !== null) files.remove(draft);
    });
  }
}

/** True when the lock was created, false when there is one. */
function createLock(path: string, me: LockHolder, files: FileLayer): boolean {
  if (files.look(path) !== null) return false;
  return withDraft(path, me, files, draft => {
    try {
      files.link(draft, path);
      return true;
    } catch (problem) {
      if (errorCode(problem) === 'EEXIST') return false;
      if (!['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK', 'EXDEV'].includes(errorCode(problem)))
        throw problem;
      return createUnlinked(path, me, files);
    }
  });
}

/** For disks without second names (FAT): for a moment the lock is there without its content. */
function createUnlinked(path: string, me: LockHolder, files: FileLayer): boolean {
  try {
    createWhole(files, path, Buffer.from(JSON.stringify(me)));
    return true;
  } catch (problem) {
    if (errorCode(problem) === 'EEXIST') return false;
    throw problem;
  }
}

function replaceLock(path: string, me: LockHolder, files: FileLayer): void {
  withDraft(path, me, files, draft => files.rename(draft, path));
}

/** An unreadable lock may be one that is just being written; after so long it is a leftover. */
const LEFTOVER_MS = 60_000;

/** null when there is no lock. A lock that cannot be understood has a holder without a process. */
function readLock(path: string, files: FileLayer): LockHolder | null {
  const facts = files.look(path);
  if (facts === null) return null;
  try {
    const value: unknown = JSON.parse(readStart(files, path, 4096).toString());
    if (isHolder(value)) return value;
  } catch (problem) {
    if (errorCode(problem) === 'ENOENT') return null;
    if (!(problem instanceof SyntaxError)) throw problem;
  }
  const id = Buffer.from(facts.identity).toString('hex').padStart(8, '0').slice(-8);
  return { id, pid: 0, since: facts.changed, boot: '', uptime: 0, began: '', space: '' };
}

function isHolder(value: unknown): value is LockHolder {
  if (typeof value !== 'object' || value === null) return false;
  const has = (key: string, type: string) => typeof Reflect.get(value, key) === type;
  const texts = ['id', 'boot', 'began', 'space'].every(key => has(key, 'string'));
  const numbers = ['pid', 'since', 'uptime'].every(key => Number.isFinite(Reflect.get(value, key)));
  // The id becomes part of a file name.
  return texts && numbers && /^[0-9a-f-]{8,36}$/.test(String(Reflect.get(value, 'id')));
}

function stateOf(holder: LockHolder, watch: ProcessWatch): 'alive' | 'dead' | 'elsewhere' {
  if (holder.pid <= 0) return Date.now() - holder.since > LEFTOVER_MS ? 'dead' : 'alive';
  if (holder.boot !== watch.boot) {
    const [id = '', machine] = holder.boot.split('@');
    if (machine !== watch.boot.split('@')[1]) return 'elsewhere';
    // An estimated start changes with the wall clock; only an uptime that fell proves another one.
    if (!id.startsWith('~') || holder.uptime > watch.uptime + LEFTOVER_MS) return 'dead';
  }
  if (holder.space !== watch.space) return 'elsewhere';
  const began = watch.began(holder.pid);
  if (
    began === null ||
    (holder.pid === process.pid && began === watch.began(process.pid) && !mine.has(holder.id))
  )
    return 'dead';
  return began !== '' && holder.began !== '' && began !== holder.began ? 'dead' : 'alive';
}
