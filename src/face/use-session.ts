/** The one way in which a screen hears of the batch: React's own store hook on the session. */
import { useCallback, useSyncExternalStore } from 'react';
import type { Run } from '../core/batch/state.ts';
import type { Session } from '../core/session.ts';

/** The run as it stands; renders again when it changed, and when it stands still because it cannot be written. */
export function useRun(session: Session): Run {
  const subscribe = useCallback((listener: () => void) => session.subscribe(listener), [session]);
  // A batch that cannot be written moves no more, so that of all changes this one would go unseen.
  useSyncExternalStore(subscribe, () => session.trouble);
  return useSyncExternalStore(subscribe, () => session.run);
}
