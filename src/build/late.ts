/**
 * Modules of Node that are rarely needed are not even looked up before something of them is used: each costs up
 * to some milliseconds, and only functions are ever imported from them.
 */
import type { Plugin } from 'esbuild';

export const LATE: readonly string[] = ['child_process', 'crypto', 'readline', 'zlib'];

/** The text of a module that gives what the real one gives, and loads it at the first use. */
export function lateModule(id: string): string {
  const names = JSON.stringify(Object.keys(process.getBuiltinModule(id) ?? {}));
  const get = `() => process.getBuiltinModule(${JSON.stringify(id)})[name]`;
  return `for (const name of ${names}) Object.defineProperty(exports, name, { enumerable: true, get: ${get} });`;
}

export function late(): Plugin {
  return {
    name: 'late',
    setup(build) {
      build.onResolve({ filter: new RegExp(`^(?:node:)?(?:${LATE.join('|')})$`) }, ({ path }) => ({
        path,
        namespace: 'late',
      }));
      build.onLoad({ filter: /.*/, namespace: 'late' }, ({ path }) => ({
        contents: lateModule(path),
        loader: 'js',
      }));
    },
  };
}
