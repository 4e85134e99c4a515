/**
 * A trainee's progress over practices, in a small file of its own beside the batches: never part of the
 * record. A note that cannot be read is left out; a file that cannot be written is said so.
 */
import { join } from 'node:path';
import type { PracticeNote } from '../core/practice/session.ts';
import { reason } from './failure.ts';
import { type FileLayer, nodeFiles, readStart, writeAtomic } from './files.ts';

const FILE = 'progress.json';
const LARGEST = 1 << 20;
const KEPT = 200;

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isCount = (value: unknown): value is number =>
  typeof value === 'number' && Number.isFinite(value) && value >= 0;
const isShort = (value: unknown): value is string => typeof value === 'string' && value.length <= 200;
const areShort = (value: unknown): value is string[] =>
  Array.isArray(value) && value.length <= 50 && value.every(isShort);

function readNote(value: unknown): PracticeNote | null {
  if (!isRecord(value)) return null;
  const { wall, seed, recipe, right, of, lost, next, wrong } = value;
  if (!isCount(wall) || !isCount(seed) || !isShort(recipe) || !isCount(right) || !isCount(of)) return null;
  if (!areShort(lost) || !areShort(wrong) || !(next === null || isShort(next))) return null;
  return { wall, seed, recipe, right, of, lost, next, wrong };
}

/** All notes that can be read, oldest first; none when there is no file. Never throws. */
export function readProgress(folder: string, files: FileLayer = nodeFiles): readonly PracticeNote[] {
  try {
    const path = join(folder, FILE);
    if ((files.look(path)?.size ?? LARGEST + 1) > LARGEST) return [];
    const parsed: unknown = JSON.parse(readStart(files, path, LARGEST).toString());
    return Array.isArray(parsed) ? parsed.map(readNote).filter(note => note !== null) : [];
  } catch {
    return [];
  }
}

/** Adds one note; null on success, else one sentence. */
export function keepProgress(
  folder: string,
  note: PracticeNote,
  files: FileLayer = nodeFiles,
): string | null {
  try {
    files.folder(folder);
    const notes = [...readProgress(folder, files), note].slice(-KEPT);
    writeAtomic(files, join(folder, FILE), `${JSON.stringify(notes, null, 1)}\n`);
    return null;
  } catch (problem) {
    return `The practice could not be noted: ${reason(problem)}.`;
  }
}
