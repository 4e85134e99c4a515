/**
 * The archive: a ZIP file (PKWARE APPNOTE 6.3) that any tool opens, version 1. Within it:
 *
 *   manifest.json       {"stovehand": "archive", "version": 1, "made": ISO 8601, "parts": [{name, bytes, sha256}]}
 *   batches/ID.batch    journals, byte for byte
 *   diary.journal       the diary, byte for byte
 *   recipes/NAME.yaml   the person's own recipes
 *   settings.json       kitchen and choices
 *   readme.txt          this, in words
 *
 * What is read back is suspected: names outside this list are left alone, sizes are bounded before anything
 * is unpacked, and every part is checked against the manifest.
 */
import { createHash } from 'node:crypto';
import { atMost, visible } from '../core/text.ts';
import { EXIT, GrowerError } from './failure.ts';
import { LONGEST_JOURNAL } from './journal-read.ts';

export const ARCHIVE_VERSION = 1;
export const MANIFEST = 'manifest.json';
export const DIARY_PART = 'diary.journal';
export const SETTINGS_PART = 'settings.json';
export const README_PART = 'readme.txt';
export const BATCH_PART = /^batches\/(\d{4}[a-z]{1,3})\.batch$/;
export const RECIPE_PART = /^recipes\/([\p{L}\p{N}][\p{L}\p{M}\p{N} _.,()'+-]{0,80}\.ya?ml)$/u;

/** Largest unpacked size of a part, bytes; null for a name that is none of ours. */
export function largestPart(name: string): number | null {
  if (BATCH_PART.test(name) || name === DIARY_PART) return LONGEST_JOURNAL;
  if (RECIPE_PART.test(name)) return 1 << 18;
  if (name === SETTINGS_PART || name === README_PART) return 1 << 20;
  return name === MANIFEST ? 8 << 20 : null;
}

/** Twenty years of batches every day stay below all of these. */
export const LARGEST_ARCHIVE = 192 << 20;
const MOST_PARTS = 12_000;
const MOST_UNPACKED = 1 << 30;
/** Journals shrink to an eighth or so; what shrank to less than a twentieth was made to burst. */
const ALWAYS_UNPACKED = 64 << 20;
const MOST_SHRUNK = 20;

export const README_TEXT = [
  'A backup of Stovehand, version 1 of the archive.',
  '',
  'batches/ holds one journal for each batch: a JSON object a line, a tab, and a CRC-32 in hexadecimal that',
  'is continued from line to line. diary.journal is written in the same way and tells what became of the bags.',
  'recipes/ and settings.json are plain text. manifest.json lists every part with its SHA-256.',
  '',
  'Read it back with: stovehand import FILE. It merges: what is there already is neither doubled nor changed.',
  '',
].join('\n');

export interface Part {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** A ZIP entry knows no other years; a laptop whose battery died may be in 1970, and the manifest says so. */
const [EARLIEST, LATEST] = [Date.UTC(1980, 0, 2), Date.UTC(2099, 11, 30)];

/** The archive as bytes. `madeWall` is also the time of every entry, so equal content gives equal bytes. */
export async function packArchive(parts: readonly Part[], madeWall: number): Promise<Uint8Array> {
  const { zipSync } = await import('fflate');
  const manifest = {
    stovehand: 'archive',
    version: ARCHIVE_VERSION,
    made: new Date(madeWall).toISOString(),
    parts: parts.map(({ name, bytes }) => ({ name, bytes: bytes.length, sha256: sha256(bytes) })),
  };
  const all: Part[] = [
    { name: MANIFEST, bytes: Buffer.from(`${JSON.stringify(manifest, null, 1)}\n`) },
    { name: README_PART, bytes: Buffer.from(README_TEXT) },
    ...parts,
  ];
  return zipSync(Object.fromEntries(all.map(({ name, bytes }) => [name, bytes])), {
    level: 6,
    mtime: Math.min(LATEST, Math.max(EARLIEST, madeWall)),
  });
}

export interface Unpacked {
  readonly parts: readonly Part[];
  /** One sentence each: what is missing, damaged, refused or unknown. */
  readonly notices: readonly string[];
}

const broken = (why: string): GrowerError =>
  new GrowerError(`This is no archive of Stovehand: ${why}.`, {
    tryThis: ['Nothing was changed. Name a file that "stovehand export" wrote.'],
    exitCode: EXIT.badFile,
  });

interface Listed {
  readonly bytes: number;
  readonly sha256: string;
}

function readManifest(bytes: Uint8Array | undefined): ReadonlyMap<string, Listed> | null {
  if (!bytes) return null;
  let value: unknown;
  try {
    value = JSON.parse(Buffer.from(bytes).toString());
  } catch {
    return null;
  }
  if (typeof value !== 'object' || value === null) return null;
  if (Reflect.get(value, 'stovehand') !== 'archive') return null;
  if (Number(Reflect.get(value, 'version')) > ARCHIVE_VERSION) {
    throw new GrowerError('This archive was written by a newer Stovehand.', {
      tryThis: ['Nothing was changed. Import it with that version.'],
      exitCode: EXIT.badFile,
    });
  }
  const parts: unknown = Reflect.get(value, 'parts');
  if (!Array.isArray(parts)) return null;
  const listed = new Map<string, Listed>();
  for (const part of parts as unknown[]) {
    if (typeof part !== 'object' || part === null) continue;
    const [name, size, sum] = [
      Reflect.get(part, 'name'),
      Reflect.get(part, 'bytes'),
      Reflect.get(part, 'sha256'),
    ];
    if (typeof name === 'string' && typeof size === 'number' && typeof sum === 'string') {
      listed.set(name, { bytes: size, sha256: sum });
    }
  }
  return listed;
}

const quoted = (name: string): string => JSON.stringify(visible(atMost(name, 80)));
const sayDamaged = (name: string): string => `${quoted(name)} is damaged; what can be read of it is kept.`;

const REFUSALS = {
  'no zip': 'it is not a ZIP file',
  'too many': 'it holds too many parts',
  'too large': 'it would unpack to more than it can hold',
} as const;

/**
 * The parts of an archive. Throws GrowerError when it is none, or too large to be one; a part that is damaged
 * is named, and is still handed over as far as it could be unpacked, since journals guard themselves.
 */
export async function unpackArchive(bytes: Uint8Array): Promise<Unpacked> {
  const { unpackZip } = await import('./archive-zip.ts');
  const mostBytes = Math.min(MOST_UNPACKED, Math.max(ALWAYS_UNPACKED, bytes.length * MOST_SHRUNK));
  const limits = { most: largestPart, mostEntries: MOST_PARTS, mostBytes };
  const zip = unpackZip(bytes, limits);
  if (zip.kind === 'refused') throw broken(REFUSALS[zip.why]);
  const notices = zip.ignored.map(
    name => `${quoted(name)} is no part of an archive, or larger than it can be; it was left alone.`,
  );
  if (zip.cutOff) notices.push('The archive is cut off or damaged; what can be read of it is kept.');
  const unpacked = new Map<string, Uint8Array>();
  for (const { name, bytes: content, whole } of zip.entries) {
    if (unpacked.has(name)) notices.push(`${quoted(name)} is there twice; the first one counts.`);
    else {
      unpacked.set(name, content);
      if (!whole) notices.push(sayDamaged(name));
    }
  }
  const listed = readManifest(unpacked.get(MANIFEST));
  if (listed === null) {
    if (![...unpacked.keys()].some(name => BATCH_PART.test(name) || name === DIARY_PART))
      throw broken('it has no manifest and no batch');
    notices.push('The list of its parts is damaged or missing: whether all are there cannot be told.');
  }
  for (const [name, { sha256: sum, bytes: size }] of listed ?? []) {
    const content = unpacked.get(name);
    if (!content) {
      if (!notices.some(notice => notice.startsWith(quoted(name))))
        notices.push(`${quoted(name)} is missing from the archive.`);
    } else if ((content.length !== size || sha256(content) !== sum) && !notices.includes(sayDamaged(name))) {
      notices.push(sayDamaged(name));
    }
  }
  const parts = [...unpacked].map(([name, content]) => ({ name, bytes: content }));
  return { parts: parts.filter(({ name }) => name !== MANIFEST && name !== README_PART), notices };
}
