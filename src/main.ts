#!/usr/bin/env node
/**
 * Entry of the program. It imports nothing that needs a new Node, so that an old one can be told in a
 * sentence, and nothing large, so that the compile cache is on before anything large is loaded.
 */
// As a whole: an old Node has no such name in it, and would stop at a named import before it could be told.
import * as nodeModule from 'node:module';

const LEAST_NODE = 22;
const major = Number(process.versions.node.split('.')[0]);

// 22.0 to 22.2 lack it as well.
if (major < LEAST_NODE || process.getBuiltinModule === undefined) {
  process.stderr.write(
    `Stovehand needs Node ${LEAST_NODE}.3 or newer, and this is ${process.versions.node}. ` +
      'Start it with "npm start", which brings its own.\n',
  );
  process.exitCode = 7;
} else {
  // Beside the program: the usual place is a temporary folder that other people of this machine can write to.
  nodeModule.enableCompileCache?.(process.env.NODE_COMPILE_CACHE ?? `${import.meta.dirname}/.cache`);
  const { run } = await import('./cli/run.ts');
  process.exitCode = await run(process.argv.slice(2), new URL('../recipes', import.meta.url));
}
