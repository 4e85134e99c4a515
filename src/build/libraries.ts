/**
 * Libraries that the first frame does not need, or only some days do: bundled into a file of their own, which
 * is loaded with the first of them that is asked for.
 */
import type { Plugin } from 'esbuild';

const LIBRARIES = ['conf', 'fflate', 'ical-generator', 'qrcode-generator', 'yaml'];

/** Text of the file's entry: a function that loads the library of that name. */
export const librariesEntry = `module.exports = id => ({ ${LIBRARIES.map(
  id => `${JSON.stringify(id)}: () => require(${JSON.stringify(id)})`,
).join(', ')} })[id]();`;

/** What stands for a library in the program: the names that it exports, and a call for the library itself. */
async function standIn(id: string): Promise<string> {
  const names = Object.keys((await import(id)) as object).filter(name =>
    /^(?!default$)[A-Za-z_$][\w$]*$/.test(name),
  );
  return [
    `const all = require(${JSON.stringify(`library:${id}`)});`,
    // A library in CommonJS has no default; it is one.
    'export default all.default ?? all;',
    `export const { ${names.join(', ')} } = all;`,
  ].join('\n');
}

export function libraries(): Plugin {
  return {
    name: 'libraries',
    setup(build) {
      build.onResolve({ filter: new RegExp(`^(?:${LIBRARIES.join('|')})$`) }, ({ path }) => ({
        path,
        namespace: 'library',
      }));
      build.onResolve({ filter: /^library:/ }, ({ path }) => ({
        path: path.slice('library:'.length),
        external: true,
      }));
      build.onLoad({ filter: /.*/, namespace: 'library' }, async ({ path }) => ({
        contents: await standIn(path),
        loader: 'js',
      }));
    },
  };
}
