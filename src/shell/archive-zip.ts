/**
 * Unpacking a ZIP file that nobody vouches for: entry by entry, never more than a part may hold, and what is
 * readable of a damaged entry or of a file that was cut off is handed over.
 */
import { inflateRawSync } from 'node:zlib';
import { type AsyncFlateStreamHandler, Inflate, Unzip, type UnzipDecoder } from 'fflate';

export interface UnpackedEntry {
  readonly name: string;
  readonly bytes: Buffer;
  /** All of it came out. */
  readonly whole: boolean;
}

export interface UnpackLimits {
  /** Largest unpacked size of an entry; null leaves it alone. */
  readonly most: (name: string) => number | null;
  readonly mostEntries: number;
  readonly mostBytes: number;
}

export type Unpacking =
  | {
      readonly kind: 'unpacked';
      readonly entries: readonly UnpackedEntry[];
      readonly ignored: readonly string[];
      readonly cutOff: boolean;
    }
  | { readonly kind: 'refused'; readonly why: 'no zip' | 'too many' | 'too large' };

const STORED = 0;
const DEFLATED = 8;
/** Small enough that a bomb is noticed before it has grown. */
const BITE = 1 << 14;

/** Collects the packed bytes of an entry; unpacking waits until they are all there. */
function collector(compression: number) {
  return class Collector implements UnzipDecoder {
    static readonly compression = compression;
    ondata: AsyncFlateStreamHandler = () => undefined;
    push(chunk: Uint8Array, final: boolean): void {
      this.ondata(null, Uint8Array.from(chunk), final);
    }
  };
}

/** What comes out before the data go bad, at most so many bytes. */
function inflateSome(packed: Buffer, most: number): Buffer {
  const pieces: Buffer[] = [];
  let length = 0;
  try {
    const stream = new Inflate(piece => {
      pieces.push(Buffer.from(piece));
      length += piece.length;
    });
    for (let from = 0; from < packed.length && length <= most; from += 512) {
      stream.push(Uint8Array.from(packed.subarray(from, from + 512)), false);
    }
  } catch {
    // The pieces so far are all there is.
  }
  return Buffer.concat(pieces).subarray(0, most);
}

function inflate(packed: Buffer, most: number): { bytes: Buffer; whole: boolean } | 'too large' {
  try {
    return { bytes: inflateRawSync(packed, { maxOutputLength: Math.max(1, most) }), whole: true };
  } catch (problem) {
    const code = problem instanceof Error && 'code' in problem ? problem.code : '';
    if (code === 'ERR_BUFFER_TOO_LARGE') return 'too large';
    return { bytes: inflateSome(packed, most), whole: false };
  }
}

interface Packed {
  readonly name: string;
  readonly compression: number;
  readonly most: number;
  readonly chunks: Uint8Array[];
  final: boolean;
  tooLarge: boolean;
}

/** Unpacks within limits. Never throws for what the bytes hold. */
export function unpackZip(bytes: Uint8Array, limits: UnpackLimits): Unpacking {
  const packed: Packed[] = [];
  const ignored: string[] = [];
  let count = 0;
  const unzip = new Unzip(file => {
    count += 1;
    const most = limits.most(file.name);
    if (most === null || count > limits.mostEntries) {
      if (ignored.length < 100) ignored.push(file.name);
      return;
    }
    const entry: Packed = {
      name: file.name,
      compression: file.compression,
      most,
      chunks: [],
      final: false,
      tooLarge: false,
    };
    packed.push(entry);
    let length = 0;
    file.ondata = (problem, chunk, final) => {
      if (problem) return;
      length += chunk.length;
      // Packed data is hardly ever larger than its content.
      entry.tooLarge ||= length > most + 4096;
      if (!entry.tooLarge) entry.chunks.push(chunk);
      entry.final ||= final;
    };
    if (file.compression === STORED || file.compression === DEFLATED) file.start();
  });
  unzip.register(collector(STORED));
  unzip.register(collector(DEFLATED));
  let cutOff = false;
  try {
    for (let from = 0; from < bytes.length; from += BITE)
      unzip.push(bytes.subarray(from, from + BITE), false);
    unzip.push(new Uint8Array(0), true);
  } catch {
    cutOff = true;
  }
  if (count === 0) return { kind: 'refused', why: 'no zip' };
  if (count > limits.mostEntries) return { kind: 'refused', why: 'too many' };
  const entries: UnpackedEntry[] = [];
  let total = 0;
  for (const { name, compression, chunks, most, final, tooLarge } of packed) {
    const content = Buffer.concat(chunks);
    const out = tooLarge
      ? 'too large'
      : compression === STORED
        ? { bytes: content, whole: true }
        : inflate(content, most);
    if (out === 'too large' || out.bytes.length > most) {
      ignored.push(name);
      continue;
    }
    total += out.bytes.length;
    if (total > limits.mostBytes) return { kind: 'refused', why: 'too large' };
    entries.push({ name, bytes: out.bytes, whole: out.whole && final });
  }
  return { kind: 'unpacked', entries, ignored, cutOff };
}
