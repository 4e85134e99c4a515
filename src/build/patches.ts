/**
 * Changes to dependencies while they are bundled, only for the time to the first frame (figures in
 * DEVELOPERS.md). Each names the text it expects; when a new version of a dependency does not have it any
 * more, the build fails and says which one, and nobody ships a patch that silently does nothing.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Plugin } from 'esbuild';
import { FRAME_PATCHES, type Patch } from './frame-patches.ts';

const SEGMENTER = fileURLToPath(new URL('segmenter.ts', import.meta.url));

const SEGMENTER_IMPORT = `import { graphemeSegmenter } from ${JSON.stringify(SEGMENTER)};\n`;
const segmenter = (file: string, from: string): Patch => ({
  file,
  why: 'the break rules of ICU are only loaded for text that needs them',
  imports: SEGMENTER_IMPORT,
  swaps: [[from, 'graphemeSegmenter']],
});

/** WebAssembly of 90 kB compiles in about 2 ms; waiting for a promise to do it costs several turns of the loop. */
const YOGA_NOW = `
const whole = {
  instantiateWasm: (imports, receive) => {
    const instance = new WebAssembly.Instance(new WebAssembly.Module(wasmBytes), imports);
    receive(instance);
    return instance.exports;
  },
};
loadYoga(whole);
const Yoga = wrapAssembly(whole);`;

export const PATCHES: readonly Patch[] = [
  segmenter('slice-ansi/tokenize-ansi.js', "new Intl.Segmenter(undefined, {granularity: 'grapheme'})"),
  segmenter('wrap-ansi/index.js', 'new Intl.Segmenter()'),
  segmenter('cli-truncate/index.js', 'new Intl.Segmenter()'),
  segmenter(
    '@alcalzone/ansi-tokenize/build/tokenize.js',
    'new Intl.Segmenter(undefined, { granularity: "grapheme" })',
  ),
  {
    file: 'string-width/index.js',
    why: 'the set of all emoji takes ICU 20 ms to build, and drawing characters can be counted without it',
    imports: `import { graphemeSegmenter, isSimpleCells, lazyRegExp } from ${JSON.stringify(SEGMENTER)};\n`,
    swaps: [
      ['new Intl.Segmenter()', 'graphemeSegmenter'],
      ['/^\\p{RGI_Emoji}$/v', "lazyRegExp('^\\\\p{RGI_Emoji}$', 'v')"],
      ['if (/^[\\u0020-\\u007E]*$/.test(string)) {', 'if (ambiguousIsNarrow && isSimpleCells(string)) {'],
    ],
  },
  {
    file: 'ink/build/reconciler.js',
    why: 'without its developer tools, which are not installed, it waits for nothing while it is loaded',
    swaps: [
      ["await import('./devtools.js');", ''],
      ['await loadPackageJson()', '{}'],
    ],
  },
  ...FRAME_PATCHES,
  {
    file: 'yoga-layout/dist/src/index.js',
    why: 'the layout engine is there at once instead of after a promise',
    imports: "import wasmBytes from 'yoga-wasm-bytes';\n",
    swaps: [['const Yoga = wrapAssembly(await loadYoga());', YOGA_NOW]],
  },
];

const WASM_FILE = 'yoga-layout/dist/binaries/yoga-wasm-base64-esm.js';
const WASM_TEXT = /"data:application\/octet-stream;base64,([A-Za-z0-9+/=]+)"/g;

function patched(source: string, { file, imports = '', swaps }: Patch): string {
  let text = source;
  for (const [from, to] of swaps) {
    const parts = text.split(from);
    if (parts.length !== 2) {
      throw new Error(
        `The patch of ${file} no longer fits: "${from}" stands in it ${parts.length - 1} times, not once. ` +
          'Look at src/build/patches.ts.',
      );
    }
    text = parts.join(to);
  }
  return imports + text;
}

/** The engine's bytes; they stand in the file exactly once, in base64. */
function wasmOf(source: string): Uint8Array {
  const found = [...source.matchAll(WASM_TEXT)];
  const bytes = found[0]?.[1];
  if (bytes === undefined || found.length !== 1) {
    throw new Error(`The bytes of ${WASM_FILE} are no longer where they were. Look at src/build/patches.ts.`);
  }
  return Buffer.from(bytes, 'base64');
}

const endOf = (file: string): RegExp =>
  new RegExp(
    `[\\\\/]node_modules[\\\\/]${file.replaceAll(/[.\\/]/g, found => (found === '/' ? '[\\\\/]' : `\\${found}`))}$`,
  );

/** The esbuild plugin; a patch whose file was never met fails the build as well. */
export function patches(list: readonly Patch[] = PATCHES): Plugin {
  return {
    name: 'patches',
    setup(build) {
      const missing = new Set(list.map(({ file }) => file));
      let wasmPath = '';
      for (const patch of list) {
        build.onLoad({ filter: endOf(patch.file) }, ({ path }) => {
          missing.delete(patch.file);
          return { contents: patched(readFileSync(path, 'utf8'), patch), loader: 'js' };
        });
      }
      build.onLoad({ filter: endOf(WASM_FILE) }, ({ path }) => {
        const source = readFileSync(path, 'utf8');
        wasmOf(source);
        return { contents: source.replace(WASM_TEXT, '""'), loader: 'js' };
      });
      build.onResolve({ filter: /^yoga-wasm-bytes$/ }, ({ resolveDir }) => {
        wasmPath = `${resolveDir}/../binaries/yoga-wasm-base64-esm.js`;
        return { path: wasmPath, namespace: 'yoga-wasm-bytes' };
      });
      build.onLoad({ filter: /.*/, namespace: 'yoga-wasm-bytes' }, ({ path }) => ({
        contents: wasmOf(readFileSync(path, 'utf8')),
        loader: 'binary',
      }));
      build.onEnd(() => {
        if (missing.size === 0) return undefined;
        const text = `Nothing was bundled for the patch of ${[...missing].join(', ')}. Look at src/build/patches.ts.`;
        return { errors: [{ text }] };
      });
    },
  };
}
