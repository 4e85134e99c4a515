/** The program from its sources, for commands that draw no screen: Node strips the types itself, no build is needed. */
import { run } from '../../src/cli/run.ts';

process.exitCode = await run(process.argv.slice(2), new URL('../../recipes', import.meta.url));
