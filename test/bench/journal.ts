/** How long an answer waits for the disk: one line appended and flushed, on the disk of the temporary folder. */
import { join } from 'node:path';
import { openSync, closeSync, writeSync, fdatasyncSync } from 'node:fs';
import { createJournal } from '../../src/shell/journal.ts';
import { dropHome, type Figure, newHome, quantile } from './measure.ts';

export function journal(appends = 500): readonly Figure[] {
  const home = newHome();
  const kept = createJournal<{ n: number; event: string }>(join(home, 'bench.batch'), {});
  const bare = openSync(join(home, 'bare'), 'a');
  const ours: number[] = [];
  const plain: number[] = [];
  const event = 'x'.repeat(160);
  for (let n = 0; n < appends; n += 1) {
    const at = performance.now();
    kept.append({ n, event });
    const then = performance.now();
    writeSync(bare, `${event}\n`);
    fdatasyncSync(bare);
    ours.push(then - at);
    plain.push(performance.now() - then);
  }
  kept.close();
  closeSync(bare);
  dropHome(home);
  const worst = quantile(ours, 0.99);
  return [
    {
      name: 'journal append and flush',
      figure: `p50 ${quantile(ours, 0.5).toFixed(2)} ms, p99 ${worst.toFixed(2)} ms`,
      ratio: `${(quantile(ours, 0.5) / quantile(plain, 0.5)).toFixed(2)} x a bare write and fdatasync`,
      aim: 'p99 < 50 ms',
      met: worst < 50,
    },
  ];
}
