/** The screens after the batch, and how one leads to another. */
import { useState } from 'react';
import type { AfterServices } from '../../core/record/after.ts';
import { type BagId, readBagId } from '../../core/record/diary.ts';
import type { Services } from '../../core/services.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { BagScreen } from './bag.tsx';
import { BagsScreen } from './bags.tsx';
import { CompareScreen } from './compare.tsx';
import { CultureScreen } from './culture.tsx';
import { DueScreen } from './due.tsx';
import { NextTimeScreen } from './next-time.tsx';
import { RecordScreen } from './record.tsx';

export type RecordPlace =
  | { readonly at: 'due' | 'record' }
  | { readonly at: 'bags'; readonly batch: string | null }
  | { readonly at: 'next'; readonly batch: string }
  | { readonly at: 'compare'; readonly left: string; readonly right: string };

interface Walk {
  readonly bags: readonly BagId[];
  readonly asks: 'state' | 'culture';
  /** A culture that was just added: said, and given by Space. */
  readonly gives?: string;
}

export interface RecordPlacesProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly services: Services;
  readonly after: AfterServices;
  readonly place: RecordPlace;
  readonly onBack: () => void;
}

export const RecordPlaces = ({ place, onBack, ...shared }: RecordPlacesProps) => {
  const [walk, setWalk] = useState<Walk | null>(null);
  // A new culture, and the bags that are then asked which they were given.
  const [adding, setAdding] = useState<readonly BagId[] | null>(null);
  const [says, setSays] = useState<string | null>(null);
  const newCulture = (bags: readonly BagId[]) => setAdding(bags);
  if (adding) {
    const [first] = adding;
    const done = (added: { readonly key: string; readonly says: string } | null) => {
      setAdding(null);
      setSays(added?.says ?? null);
      if (added && adding.length > 0) setWalk({ bags: adding, asks: 'culture', gives: added.key });
    };
    const batch = readBagId(first ?? '')?.batch ?? (place.at === 'bags' ? place.batch : null);
    return <CultureScreen {...shared} batch={batch} onDone={done} />;
  }
  if (walk) {
    const back = (said: string | null) => {
      setSays(said);
      setWalk(null);
    };
    const { gives = null } = walk;
    const said = gives === null ? null : says;
    return (
      <BagScreen {...shared} {...walk} says={said} gives={gives} onNewCulture={newCulture} onBack={back} />
    );
  }
  const onBags = (bags: readonly BagId[], asks: Walk['asks'] = 'state') => setWalk({ bags, asks });
  switch (place.at) {
    case 'due':
      return <DueScreen {...shared} onBags={onBags} onBack={onBack} />;
    case 'bags':
      return (
        <BagsScreen
          {...shared}
          batch={place.batch}
          says={says}
          onBags={onBags}
          onNewCulture={newCulture}
          onBack={onBack}
        />
      );
    case 'record':
      return <RecordScreen {...shared} onBack={onBack} />;
    case 'next':
      return <NextTimeScreen {...shared} batch={place.batch} onBack={onBack} />;
    case 'compare':
      return <CompareScreen {...shared} left={place.left} right={place.right} onBack={onBack} />;
  }
};
