/**
 * Loads a built file together with the code that V8 made of it. Node's own cache of compiled code is written
 * when a file is loaded, before any function of it ran, so that each start would compile every function of the
 * first frame again, a fifth of the time to it. The build writes ours after it walked through the first screens.
 */

// Reached by calls: an import of one of Node's own modules reads every export of it, and an old Node stops at a
// name that it does not have before it could be told.
const node = process.getBuiltinModule;

/** What a built file is called with, much as by Node's own loader; the build writes the function around it. */
export const PARAMETERS = 'exports, require, module, moduleUrl';
type Wrapped = (
  exports: object,
  require: (id: string) => unknown,
  module: { exports: unknown },
  moduleUrl: string,
) => void;

export interface Loaded {
  readonly exports: unknown;
  /** Whether the code that was kept could be used. */
  readonly wasKept: boolean;
  /** What the build keeps beside the file, once everything of it ran that shall be kept. */
  keep(): Buffer;
}

const HEAD = 4;
export const keptName = (file: string): string => `${file}.code`;

/** V8 looks at version, flags and length of the code, and believes the rest: a damaged one would crash it. */
function sumOf(source: Uint8Array, code: Uint8Array): number {
  const { crc32 } = node('node:zlib');
  return crc32(code, crc32(source));
}

function keptCode(file: string, source: Uint8Array): Buffer | undefined {
  let kept: Buffer;
  try {
    kept = node('node:fs').readFileSync(keptName(file));
  } catch {
    return undefined;
  }
  const code = kept.subarray(HEAD);
  return kept.length > HEAD && kept.readUInt32LE() === sumOf(source, code) ? code : undefined;
}

/** `require` answers for what the file does not hold itself. Throws what reading or running the file throws. */
export function loadBuilt(file: string, require: (id: string) => unknown): Loaded {
  const source = node('node:fs').readFileSync(file);
  const cachedData = keptCode(file, source);
  // The build leaves nothing but ASCII in it, and so it takes one byte for each character in memory.
  const { Script } = node('node:vm');
  const script = new Script(source.toString('latin1'), {
    filename: file,
    ...(cachedData ? { cachedData } : {}),
  });
  const module = { exports: {} };
  (script.runInThisContext() as Wrapped)(
    module.exports,
    require,
    module,
    node('node:url').pathToFileURL(file).href,
  );
  return {
    exports: module.exports,
    wasKept: cachedData !== undefined && script.cachedDataRejected === false,
    keep: () => {
      const code = script.createCachedData();
      const head = Buffer.alloc(HEAD);
      head.writeUInt32LE(sumOf(source, code));
      return Buffer.concat([head, code]);
    },
  };
}

export interface Program {
  readonly run: (argv: readonly string[], shipped: URL) => Promise<number>;
}

/**
 * The program in this folder; the file of its libraries is loaded with the first of them. `onLoaded` hears of
 * both; what it keeps of them stays in memory.
 */
export function loadProgram(folder: string, onLoaded?: (file: string, loaded: Loaded) => void): Program {
  const load = (name: string, require: (id: string) => unknown): unknown => {
    const file = `${folder}/${name}`;
    const loaded = loadBuilt(file, require);
    onLoaded?.(file, loaded);
    return loaded.exports;
  };
  let library: ((id: string) => unknown) | null = null;
  return load('stovehand.js', id => {
    const found: unknown = node(id);
    if (found !== undefined) return found;
    library ??= load('libraries.js', node) as (id: string) => unknown;
    return library(id);
  }) as Program;
}
