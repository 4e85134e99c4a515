/** From the shell prompt to the first frame, against Node doing nothing and against Ink as it comes. */
import { fileURLToPath } from 'node:url';
import { dropHome, type Figure, median, newHome, PROGRAM, startNode } from './measure.ts';

const HELLO = fileURLToPath(new URL('hello-ink.mjs', import.meta.url));

async function untilSeen(words: readonly string[], pattern: RegExp, home: string): Promise<number> {
  const child = startNode(words, { home });
  const at = await child.seen(pattern);
  await child.end();
  return at - child.startedAt;
}

async function untilEnded(words: readonly string[]): Promise<number> {
  const child = startNode(words);
  return (await child.ended) - child.startedAt;
}

/** Takes turns, so that a busy moment of the machine falls on all three alike. */
export async function startup(rounds = 21): Promise<readonly Figure[]> {
  const home = newHome();
  const nothing: number[] = [];
  const ours: number[] = [];
  const hello: number[] = [];
  // The first start fills the disk's cache and Node's own of compiled code, which is written when it is left.
  const first = startNode([PROGRAM], { home });
  await first.seen(/\?2004h/);
  first.write('q');
  await first.ended;
  await untilSeen([HELLO], /hello from ink/, home);
  for (let round = 0; round < rounds; round += 1) {
    nothing.push(await untilEnded(['-e', '0']));
    ours.push(await untilSeen([PROGRAM], /plan this batch/, home));
    hello.push(await untilSeen([HELLO], /hello from ink/, home));
  }
  dropHome(home);
  const [least, frame, ink] = [median(nothing), median(ours), median(hello)];
  return [
    {
      name: 'first frame, home',
      figure: `${frame.toFixed(0)} ms`,
      ratio: `${(frame / least).toFixed(2)} x node -e 0 (${least.toFixed(0)} ms)`,
      aim: '<= 3.2 x',
      met: frame / least <= 3.2,
    },
    {
      name: 'first frame, home',
      figure: `${frame.toFixed(0)} ms`,
      ratio: `${(frame / ink).toFixed(2)} x Ink hello world, unbundled (${ink.toFixed(0)} ms)`,
      aim: '<= 0.5 x',
      met: frame / ink <= 0.5,
    },
  ];
}
