/**
 * How the bundle reaches Node's own modules: by a call, not by `import`. An import makes Node read every export
 * of a module at once, also those that load further modules to be there (streams for `fs`, text decoders for
 * `util`), and that is a tenth of the time to the first frame. Functions of modules that are rarely needed are
 * not even looked up before they are called.
 */
import { isBuiltin } from 'node:module';

/** Only functions are ever imported from these. */
const LATE = new Set(['node:child_process', 'node:crypto', 'node:readline', 'node:zlib']);

/** Defines `require` for the packages inside the bundle that still call it: for Node's own modules, all of them. */
export const BANNER = 'const require = id => process.getBuiltinModule(id);';

const get = (id: string): string => `process.getBuiltinModule(${JSON.stringify(id)})`;

/** `{ a as b, c }` of an import as pairs of what is exported and what it is called here. */
const namesIn = (list: string): readonly (readonly [string, string])[] =>
  list
    .split(',')
    .map(name => name.trim())
    .filter(name => name !== '')
    .map(name => {
      const [exported = '', local = exported] = name.split(/\s+as\s+/);
      return [exported, local] as const;
    });

function replaced(
  whole: string,
  names: string | undefined,
  all: string | undefined,
  one: string | undefined,
  id: string,
) {
  if (!isBuiltin(id)) return whole;
  if (all !== undefined || one !== undefined) return `const ${all ?? one} = ${get(id)};`;
  const pairs = namesIn(names ?? '');
  if (LATE.has(id)) {
    return pairs
      .map(([exported, local]) => `const ${local} = (...given) => ${get(id)}.${exported}(...given);`)
      .join('\n');
  }
  return `const { ${pairs.map(([exported, local]) => (exported === local ? local : `${exported}: ${local}`)).join(', ')} } = ${get(id)};`;
}

// As esbuild writes them, one statement each: `import { a as b } from "x";`, `import * as a from "x";`, `import a from "x";`.
const IMPORT = /^import (?:\{([^}]*)\}|\* as ([\w$]+)|([\w$]+)) from "([^"]+)";$/gm;

/** The text of a built file with its imports of Node's own modules replaced. Throws when one is left. */
export function withoutBuiltinImports(text: string, file: string): string {
  const changed = text.replace(IMPORT, replaced);
  const left = [...changed.matchAll(/^(?:import|export)\b[^;]*?\bfrom "(node:[^"]+)"/gm)].map(
    found => found[1],
  );
  if (left.length > 0)
    throw new Error(`${file} still imports ${left.join(', ')}. Look at src/build/builtins.ts.`);
  return changed;
}
