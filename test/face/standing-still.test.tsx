import { it } from 'vitest';
import { MINUTE } from '../../src/core/time.ts';
import { Drive } from '../help/batch-drive.ts';
import { sampleHeader } from '../help/batch-kit.ts';
import { handSession } from '../help/hand-session.ts';
import { mountApp } from '../help/mount.tsx';

const FULL = 'The batch could not be written: the disk is full. Nothing was lost.';

it.each([
  ['in the hold', () => new Drive(sampleHeader()).to('hold').wait(MINUTE)],
  ['under the question about unseen time', () => new Drive(sampleHeader()).to('hold').trouble('was-away')],
  ['in the soak', () => new Drive(sampleHeader()).to('soak')],
])('a batch that stands still because it cannot be written says so at once, %s', async (_, drive) => {
  const session = handSession(drive().run);
  const app = await mountApp({ screen: 'run', session }, { columns: 80, rows: 24 });
  await app.until('trouble');
  // As the session does it: the run is the very same, only the reason has come.
  session.trouble = FULL;
  session.shows(session.run);
  await app.until('the disk is full');
  session.trouble = null;
  session.passes(MINUTE);
  await app.until(screen => !screen.text.includes('the disk is full'));
});
