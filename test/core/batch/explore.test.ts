import { describe, it } from 'vitest';
import { EXPLORED, proveLidAndHold } from '../../help/batch-prove.ts';

/** Two answers to take back are explored in `npm run soak`: three times as many states, the same edges over again. */
const UNDO_DEPTH = 1;

describe('S1 and S2, proved over every state of the machine', () => {
  it.each(EXPLORED)('no way past lock or vent: $name', { timeout: 300_000 }, ({ name, header }) =>
    proveLidAndHold(name, header, UNDO_DEPTH),
  );
});
