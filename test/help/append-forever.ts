/** Run as a program of its own and killed: appends events to a journal and says each number once it is kept. */
import { writeSync } from 'node:fs';
import { createJournal } from '../../src/shell/journal.ts';

const journal = createJournal<{ n: number }>(process.argv[2] ?? '', { name: 'Sorghum' });
for (let n = 1; ; n += 1) {
  journal.append({ n });
  writeSync(1, `${n}\n`);
}
