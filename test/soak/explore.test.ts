import { describe, it } from 'vitest';
import { EXPLORED, proveLidAndHold } from '../help/batch-prove.ts';

/** Set STOVEHAND_SOAK_UNDO for more answers to take back. */
const UNDO_DEPTH = Number(process.env.STOVEHAND_SOAK_UNDO ?? 2);

describe('S1 and S2 over every state, with more answers to take back', () => {
  it.each(EXPLORED)('no way past lock or vent: $name', ({ name, header }) =>
    proveLidAndHold(name, header, UNDO_DEPTH),
  );
});
