import { expect, it } from 'vitest';
import { Grower, titleOf } from '../help/grower.ts';
import { terminal } from '../help/terminal.ts';

it('S10: a second copy watches, says so, takes no answer, and follows the first', async () => {
  const first = terminal();
  await first.ready();
  const grower = new Grower(first);
  await grower.begins('Wheat, first run');

  const second = terminal([], { home: first.home });
  await second.ready();
  const onlooker = new Grower(second);
  const seen = await onlooker.sees('[WATCHING]');
  expect(titleOf(seen)).toBe('Gear');
  expect(seen.notice).toContain('only watches');
  await onlooker.presses('space', 'Another Stovehand runs this batch');
  expect(titleOf(onlooker.screen)).toBe('Gear');

  await grower.presses('space', screen => titleOf(screen) === 'Weigh');
  await onlooker.sees(screen => titleOf(screen) === 'Weigh', "the first copy's next step");

  await onlooker.presses('q');
  expect((await second.exit).code).toBe(0);
  // The first one never noticed.
  await grower.presses('space', screen => titleOf(screen) === 'Simmer');
  first.kill('SIGKILL');
  await first.exit;

  const third = terminal([], { home: first.home });
  await third.ready();
  const heir = await new Grower(third).sees(
    screen => titleOf(screen) === 'Simmer',
    'the batch of a dead program',
  );
  expect(heir.head).not.toContain('WATCHING');
});
