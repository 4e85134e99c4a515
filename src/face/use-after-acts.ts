/** The ways on from the end of a batch: to the screens after it, or a file that is written on the spot. */
import { useRef } from 'react';
import type { PageKind } from '../core/record/after.ts';
import type { Services } from '../core/services.ts';
import type { Session } from '../core/session.ts';
import { visible } from '../core/text.ts';
import type { AfterAct } from './run-keys.ts';
import type { RecordPlace } from './screens/record-places.tsx';
import type { Notice } from './widgets/frame.tsx';

/** Carries out a way on; what there is to say goes to `say`. */
export function useAfterActs(
  session: Session,
  services: Services,
  onAfter: ((place: RecordPlace) => void) | undefined,
  say: (notice: Notice) => void,
): (act: AfterAct) => void {
  const written = useRef<string | null>(null);
  const { after } = services;
  const tell = (text: string, ink: Notice['ink'] = 'good'): void => say({ text: visible(text), ink });
  const write = async (kind: PageKind, id: string): Promise<void> => {
    if (!after) return;
    const { path, says } = await after.makePage(kind, id);
    if (path !== null && kind !== 'calendar') written.current = path;
    tell(says, path === null ? 'watch' : 'good');
  };
  const open = async (): Promise<void> => {
    if (written.current === null) tell('Nothing was written yet: l writes labels, p the page.', 'watch');
    else if (after) tell(await after.openPage(written.current));
  };
  return act => {
    const { batch } = session.run;
    const { id } = batch.header;
    switch (act) {
      case 'bags':
      case 'next':
        return onAfter?.({ at: act, batch: id });
      case 'record':
        return onAfter?.({ at: 'record' });
      case 'labels':
      case 'card':
      case 'calendar':
        return void write(act, id);
      case 'open':
        return void open();
      case 'save':
        return void services.saveRecipe(batch).then(says => tell(says));
    }
  };
}
