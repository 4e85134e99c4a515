/**
 * Where finished batches ended, kept beside them so that years of batches open at once. A cache and nothing
 * more: a line counts only for the very file it was made from (name, length, last change) and only for the
 * program that made it; anything else is read from its journal again. It may be deleted at any time.
 */
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { crc32 } from 'node:zlib';
import type { Batch } from '../core/batch/state.ts';
import { type FileFacts, type FileLayer, nodeFiles, readStart, writeAtomic } from './files.ts';

export interface Summary {
  readonly batch: Batch;
  readonly says: readonly string[];
}

interface Kept extends Summary {
  readonly size: number;
  readonly changed: number;
}

const FILE = 'summaries.cache';
/** More than 10,000 batches; a file beyond that is not this cache. */
const LARGEST = 256 << 20;

/** Names the program: a newer one may read the same journal otherwise. */
function programStamp(files: FileLayer): string {
  try {
    const facts = files.look(fileURLToPath(import.meta.url));
    return facts === null ? '' : `${facts.size}-${Math.round(facts.changed)}`;
  } catch {
    return '';
  }
}

const firstLine = (stamp: string): string => `stovehand summaries 1 ${stamp}`;

function isKept(value: unknown): value is Kept & { readonly id: string } {
  if (typeof value !== 'object' || value === null) return false;
  const has = (key: string, type: string) => typeof Reflect.get(value, key) === type;
  return has('id', 'string') && has('size', 'number') && has('changed', 'number') && has('batch', 'object');
}

function readCache(path: string, stamp: string, files: FileLayer): Map<string, Kept> {
  const known = new Map<string, Kept>();
  try {
    if (files.look(path) === null) return known;
    const bytes = readStart(files, path, LARGEST);
    const feed = bytes.indexOf(0x0a);
    const [head = '', sum = ''] = bytes.toString('utf8', 0, Math.max(0, feed)).split('\t');
    const body = bytes.subarray(feed + 1);
    if (head !== firstLine(stamp) || sum !== crc32(body).toString(16)) return known;
    for (const value of JSON.parse(body.toString()) as unknown[])
      if (isKept(value)) known.set(value.id, value);
  } catch {
    // Whatever is wrong with a cache, the journals are there.
    known.clear();
  }
  return known;
}

export interface Summaries {
  /** The end of that batch when its file is still the one it was made from; null otherwise. */
  find(id: string, facts: FileFacts): Summary | null;
  remember(id: string, facts: FileFacts, summary: Summary): void;
  /** Writes what is new; failing is no failure. `here` are the batches that exist. */
  save(here: readonly string[]): void;
}

/** The cache of a folder of batches. Never throws. */
export function openSummaries(folder: string, files: FileLayer = nodeFiles): Summaries {
  const path = join(folder, FILE);
  const stamp = programStamp(files);
  const known = readCache(path, stamp, files);
  let isNew = false;
  return {
    find: (id, { size, changed }) => {
      const kept = known.get(id);
      return kept && kept.size === size && kept.changed === changed ? kept : null;
    },
    remember: (id, { size, changed }, { batch, says }) => {
      known.set(id, { batch, says, size, changed });
      isNew = true;
    },
    save: here => {
      if (!isNew || stamp === '') return;
      const rows = here.flatMap(id => {
        const kept = known.get(id);
        return kept ? [{ id, ...kept }] : [];
      });
      const body = JSON.stringify(rows);
      try {
        writeAtomic(files, path, `${firstLine(stamp)}\t${crc32(body).toString(16)}\n${body}`);
        isNew = false;
      } catch {
        return;
      }
    },
  };
}
