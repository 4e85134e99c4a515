/**
 * The few file operations that a batch's safety rests on, as an interface: tests wrap it to fail like a
 * full disk, a failing sync, a write cut short or a folder that vanished. All calls are synchronous, since
 * nothing may be shown before it is kept.
 */

import {
  closeSync,
  constants,
  fdatasyncSync,
  fstatSync,
  fsyncSync,
  ftruncateSync,
  linkSync,
  mkdirSync,
  openSync,
  readdirSync,
  readSync,
  renameSync,
  statSync,
  unlinkSync,
  writeSync,
} from 'node:fs';
import { dirname } from 'node:path';

export type OpenFor = 'reading' | 'updating' | 'creating';

/** Which file a name or a descriptor stands for, and its length in bytes. */
export interface FileFacts {
  readonly size: number;
  readonly identity: string;
  readonly folder: boolean;
  /** Last change, ms since 1970. */
  readonly changed: number;
}

export interface FileLayer {
  /** `creating` fails with EEXIST when the file is there; nobody else may read what it creates. */
  open(path: string, purpose: OpenFor): number;
  close(fd: number): void;
  /** Bytes read, 0 at the end. */
  read(fd: number, into: Uint8Array, position: number): number;
  /** Bytes written; may be fewer than given. */
  write(fd: number, bytes: Uint8Array, position: number): number;
  sync(fd: number): void;
  truncate(fd: number, length: number): void;
  facts(fd: number): FileFacts;
  /** null when there is nothing of that name. */
  look(path: string): FileFacts | null;
  rename(from: string, to: string): void;
  /** Second name for a file; fails with EEXIST. */
  link(from: string, to: string): void;
  remove(path: string): void;
  /** Creates the folder and its parents, private to the person. */
  folder(path: string): void;
  list(folder: string): readonly string[];
  /** Makes a new name in the folder durable, where the system knows how. */
  syncFolder(path: string): void;
}

const FILE_MODE = 0o600;
const FOLDER_MODE = 0o700;

/** Opening a named pipe would wait for somebody at its other end; Windows has neither. */
const NEVER_WAIT = constants.O_NONBLOCK ?? 0;

const flags: Readonly<Record<OpenFor, number>> = {
  reading: constants.O_RDONLY | NEVER_WAIT,
  updating: constants.O_RDWR | NEVER_WAIT,
  creating: constants.O_RDWR | constants.O_CREAT | constants.O_EXCL,
};

/** The code of a system error, such as "ENOSPC"; empty for anything else. */
export function errorCode(problem: unknown): string {
  if (!(problem instanceof Error) || !('code' in problem)) return '';
  return typeof problem.code === 'string' ? problem.code : '';
}

function factsOf(stat: ReturnType<typeof fstatSync>): FileFacts {
  return {
    size: Number(stat.size),
    identity: `${stat.dev}:${stat.ino}`,
    folder: stat.isDirectory(),
    changed: Number(stat.mtimeMs),
  };
}

export const nodeFiles: FileLayer = {
  open: (path, purpose) => openSync(path, flags[purpose], FILE_MODE),
  close: fd => closeSync(fd),
  read: (fd, into, position) => readSync(fd, into, 0, into.length, position),
  write: (fd, bytes, position) => writeSync(fd, bytes, 0, bytes.length, position),
  sync: fd => fdatasyncSync(fd),
  truncate: (fd, length) => ftruncateSync(fd, length),
  facts: fd => factsOf(fstatSync(fd)),
  look: path => {
    const stat = statSync(path, { throwIfNoEntry: false });
    return stat === undefined ? null : factsOf(stat);
  },
  rename: (from, to) => renameSync(from, to),
  link: (from, to) => linkSync(from, to),
  remove: path => unlinkSync(path),
  folder: path => {
    mkdirSync(path, { recursive: true, mode: FOLDER_MODE });
  },
  list: folder => readdirSync(folder),
  syncFolder: path => {
    // Windows cannot open a folder and some network systems cannot sync one; both keep names by themselves.
    try {
      const fd = openSync(path, constants.O_RDONLY);
      try {
        fsyncSync(fd);
      } finally {
        closeSync(fd);
      }
    } catch (problem) {
      if (!['EPERM', 'EISDIR', 'EACCES', 'EINVAL', 'ENOTSUP'].includes(errorCode(problem))) throw problem;
    }
  },
};

/** Does the work if it can be done now: for tidying up, which must not hide what it tidies up after. */
export function attempt(work: () => void): void {
  try {
    work();
  } catch {
    return;
  }
}

/** Writes all bytes at the position, over as many writes as it takes. Throws what the layer throws. */
export function writeAll(files: FileLayer, fd: number, bytes: Uint8Array, position: number): void {
  let done = 0;
  while (done < bytes.length) {
    const wrote = files.write(fd, bytes.subarray(done), position + done);
    if (wrote <= 0) throw Object.assign(new Error('the write made no progress'), { code: 'EIO' });
    done += wrote;
  }
}

/** The first `most` bytes of a file. Throws what the layer throws. */
export function readStart(files: FileLayer, path: string, most: number): Buffer {
  const fd = files.open(path, 'reading');
  try {
    const bytes = Buffer.alloc(Math.min(most, files.facts(fd).size));
    let done = 0;
    while (done < bytes.length) {
      const got = files.read(fd, bytes.subarray(done), done);
      if (got === 0) break;
      done += got;
    }
    return bytes.subarray(0, done);
  } finally {
    files.close(fd);
  }
}

/** Creates a file with its whole content on disk; fails with EEXIST and leaves no half file behind. */
export function createWhole(files: FileLayer, path: string, bytes: Uint8Array): void {
  const fd = files.open(path, 'creating');
  try {
    writeAll(files, fd, bytes, 0);
    files.sync(fd);
  } catch (problem) {
    attempt(() => files.close(fd));
    attempt(() => files.remove(path));
    throw problem;
  }
  files.close(fd);
  files.syncFolder(dirname(path));
}

/** Replaces a file, or creates it, so that a reader sees the old content or the new and never a mixture. */
export function writeAtomic(files: FileLayer, path: string, text: string): void {
  const draft = `${path}.${process.pid}.new`;
  if (files.look(draft) !== null) files.remove(draft);
  createWhole(files, draft, Buffer.from(text));
  try {
    files.rename(draft, path);
  } catch (problem) {
    attempt(() => files.remove(draft));
    throw problem;
  }
  files.syncFolder(dirname(path));
}

/** `path.suffix`, `path.suffix-2` ... whichever is free. */
export function freeName(files: FileLayer, path: string, suffix: string): string {
  for (let copy = 1; ; copy += 1) {
    const name = copy === 1 ? `${path}.${suffix}` : `${path}.${suffix}-${copy}`;
    if (files.look(name) === null) return name;
  }
}

/** Copies a file to a free name and returns it. */
export function keepAside(files: FileLayer, path: string, suffix: string): string {
  const from = files.open(path, 'reading');
  try {
    const name = freeName(files, path, suffix);
    copyInto(files, from, name);
    return name;
  } finally {
    files.close(from);
  }
}

/** Copies everything an open file holds into a new file, synced. */
export function copyInto(files: FileLayer, from: number, name: string): void {
  const to = files.open(name, 'creating');
  try {
    const block = Buffer.alloc(1 << 16);
    let done = 0;
    for (let got = files.read(from, block, 0); got > 0; got = files.read(from, block, done)) {
      writeAll(files, to, block.subarray(0, got), done);
      done += got;
    }
    files.sync(to);
  } catch (problem) {
    attempt(() => files.close(to));
    attempt(() => files.remove(name));
    throw problem;
  }
  files.close(to);
  files.syncFolder(dirname(name));
}
