/** A disk in memory, for thousands of homes. Folders are whatever lies before a slash. */
import { posix } from 'node:path';
import type { FileLayer } from '../../src/shell/files.ts';
import { systemError } from './faulty-files.ts';

interface Node {
  bytes: Buffer;
  readonly number: number;
  changed: number;
}

export function memoryFiles(): FileLayer & {
  readonly put: (path: string, bytes: Uint8Array) => void;
  readonly get: (path: string) => Buffer;
} {
  const nodes = new Map<string, Node>();
  const folders = new Set<string>(['/']);
  const open = new Map<number, Node>();
  let last = 0;
  let clock = 0;
  const next = () => {
    last += 1;
    return last;
  };
  const later = () => {
    clock += 1;
    return clock;
  };
  const node = (path: string): Node => {
    const found = nodes.get(path);
    if (!found) throw systemError('ENOENT');
    return found;
  };
  const opened = (fd: number): Node => {
    const found = open.get(fd);
    if (!found) throw systemError('EBADF');
    return found;
  };
  const make = (path: string): Node => {
    const fresh = { bytes: Buffer.alloc(0), number: next(), changed: later() };
    nodes.set(path, fresh);
    return fresh;
  };
  const factsOf = ({ bytes, number, changed }: Node) => ({
    size: bytes.length,
    identity: String(number),
    folder: false,
    changed,
  });
  const layer: FileLayer = {
    open: (path, purpose) => {
      if (purpose === 'creating' && nodes.has(path)) throw systemError('EEXIST');
      const fd = next();
      open.set(fd, purpose === 'creating' ? make(path) : node(path));
      return fd;
    },
    close: fd => {
      open.delete(fd);
    },
    read: (fd, into, position) => {
      const piece = opened(fd).bytes.subarray(position, position + into.length);
      into.set(piece);
      return piece.length;
    },
    write: (fd, bytes, position) => {
      const at = opened(fd);
      const whole = Buffer.alloc(Math.max(at.bytes.length, position + bytes.length));
      at.bytes.copy(whole);
      whole.set(bytes, position);
      at.bytes = whole;
      at.changed = later();
      return bytes.length;
    },
    sync: () => undefined,
    truncate: (fd, length) => {
      opened(fd).bytes = Buffer.from(opened(fd).bytes.subarray(0, length));
    },
    facts: fd => factsOf(opened(fd)),
    look: path => {
      const found = nodes.get(path);
      if (found) return factsOf(found);
      return folders.has(path) ? { size: 0, identity: path, folder: true, changed: 0 } : null;
    },
    rename: (from, to) => {
      nodes.set(to, node(from));
      nodes.delete(from);
    },
    link: (from, to) => {
      if (nodes.has(to)) throw systemError('EEXIST');
      nodes.set(to, node(from));
    },
    remove: path => {
      node(path);
      nodes.delete(path);
    },
    folder: path => {
      for (let at = path; !folders.has(at); at = posix.dirname(at)) folders.add(at);
    },
    list: folder =>
      [...nodes.keys()].filter(path => posix.dirname(path) === folder).map(path => posix.basename(path)),
    syncFolder: () => undefined,
  };
  return {
    ...layer,
    put: (path, bytes) => {
      layer.folder(posix.dirname(path));
      make(path).bytes = Buffer.from(bytes);
    },
    get: path => node(path).bytes,
  };
}
