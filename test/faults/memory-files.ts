/** A disk in memory, so that thousands of openings take no time. One process, no permissions, no folders but names. */
import type { FileFacts, FileLayer } from '../../src/shell/files.ts';
import { systemError } from '../help/faulty-files.ts';

interface Node {
  bytes: Buffer;
  readonly identity: string;
}

export interface MemoryFiles extends FileLayer {
  put(path: string, bytes: Uint8Array): void;
  get(path: string): Buffer;
  names(): readonly string[];
  /** Files open now: a leak shows here. */
  readonly openCount: number;
}

export function memoryFiles(): MemoryFiles {
  const named = new Map<string, Node>();
  const open = new Map<number, Node>();
  let nextFd = 3;
  let nextNode = 1;
  const node = (bytes: Uint8Array): Node => ({ bytes: Buffer.from(bytes), identity: `1:${nextNode++}` });
  const nodeOf = (path: string): Node => {
    const found = named.get(path);
    if (!found) throw systemError('ENOENT');
    return found;
  };
  const fdOf = (fd: number): Node => {
    const found = open.get(fd);
    if (!found) throw systemError('EBADF');
    return found;
  };
  const factsOf = ({ bytes, identity }: Node): FileFacts => ({
    size: bytes.length,
    identity,
    folder: false,
    changed: 0,
  });
  return {
    put: (path, bytes) => void named.set(path, node(bytes)),
    get: path => nodeOf(path).bytes,
    names: () => [...named.keys()].sort(),
    get openCount() {
      return open.size;
    },
    open: (path, purpose) => {
      if (purpose === 'creating') {
        if (named.has(path)) throw systemError('EEXIST');
        named.set(path, node(Buffer.alloc(0)));
      }
      const fd = nextFd++;
      open.set(fd, nodeOf(path));
      return fd;
    },
    close: fd => {
      fdOf(fd);
      open.delete(fd);
    },
    read: (fd, into, position) => {
      const part = fdOf(fd).bytes.subarray(position, position + into.length);
      into.set(part);
      return part.length;
    },
    write: (fd, bytes, position) => {
      const file = fdOf(fd);
      const longer = Buffer.alloc(Math.max(file.bytes.length, position + bytes.length));
      longer.set(file.bytes);
      longer.set(bytes, position);
      file.bytes = longer;
      return bytes.length;
    },
    sync: fd => void fdOf(fd),
    truncate: (fd, length) => {
      const file = fdOf(fd);
      file.bytes = Buffer.from(file.bytes.subarray(0, length));
    },
    facts: fd => factsOf(fdOf(fd)),
    look: path => {
      const found = named.get(path);
      if (found) return factsOf(found);
      const folder = [...named.keys()].some(name => name.startsWith(`${path}/`));
      return folder ? { size: 0, identity: path, folder, changed: 0 } : null;
    },
    rename: (from, to) => {
      named.set(to, nodeOf(from));
      named.delete(from);
    },
    link: (from, to) => {
      if (named.has(to)) throw systemError('EEXIST');
      named.set(to, nodeOf(from));
    },
    remove: path => {
      nodeOf(path);
      named.delete(path);
    },
    folder: () => undefined,
    list: folder =>
      [...named.keys()]
        .filter(path => path.startsWith(`${folder}/`))
        .map(path => path.slice(folder.length + 1))
        .filter(name => !name.includes('/')),
    syncFolder: () => undefined,
  };
}
