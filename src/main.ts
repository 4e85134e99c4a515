#!/usr/bin/env node
/**
 * Entry of the program. It imports nothing that needs a new Node, so that an old one can be told in a sentence.
 */
import { loadProgram } from './bundle.ts';

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
  const { run } = loadProgram(import.meta.dirname);
  process.exitCode = await run(process.argv.slice(2), new URL('../recipes', import.meta.url));
}
