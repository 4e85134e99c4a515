/** The one way in which a screen hears of the batch: React's own store hook on the session. */
import { useSyncExternalStore } from 'react';
import type { Run } from '../core/batch/state.ts';
import type { Session } from '../core/session.ts';

/** The run as it stands; renders again when it changed. */
export function useRun(session: Session): Run {
  return useSyncExternalStore(
    listener => session.subscribe(listener),
    () => session.run,
  );
}
