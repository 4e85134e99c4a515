/** Run as a program of its own: takes a lock when told to go, says whether it has it, and stays. */
import { takeLock } from '../../src/shell/lock.ts';

const path = process.argv[2] ?? '';
process.stdout.write('ready\n');
process.stdin.once('data', () => {
  const lock = takeLock(path);
  process.stdout.write(lock.held ? 'held\n' : 'refused\n');
});
