/** The full-screen program: which screen is up, and the size it has. */
import { Box, useApp, useWindowSize } from 'ink';
import { useCallback, useEffect, useState } from 'react';
import type { RecipeChoice, Services } from '../core/services.ts';
import type { Session } from '../core/session.ts';
import { visible } from '../core/text.ts';
import type { Look } from './look.ts';
import { LEAST, regionsFor } from './regions.ts';
import { BatchesScreen } from './screens/batches.tsx';
import { HomeScreen } from './screens/home.tsx';
import { KitchenScreen } from './screens/kitchen.tsx';
import { type RecordPlace, RecordPlaces } from './screens/record-places.tsx';
import { RunController } from './screens/run-controller.tsx';
import { SheetScreen } from './screens/sheet.tsx';
import { WelcomeScreen } from './screens/welcome.tsx';
import { InkText } from './widgets/ink-text.tsx';

export type Opening =
  | { readonly screen: 'home'; readonly says: string | null }
  | { readonly screen: 'welcome' }
  | { readonly screen: 'kitchen' }
  | { readonly screen: 'batches' }
  | { readonly screen: 'sheet'; readonly choice: RecipeChoice }
  | { readonly screen: 'run'; readonly session: Session }
  | { readonly screen: 'after'; readonly place: RecordPlace; readonly from: 'home' | 'batches' };

export interface AppProps {
  readonly look: Look;
  readonly services: Services;
  readonly opening: Opening;
  /** Called when the keys are listened to; tests wait for it. */
  readonly onReady?: () => void;
}

const saying = (problem: unknown): string =>
  visible(problem instanceof Error ? problem.message : String(problem));

export const App = ({ look, services, opening, onReady }: AppProps) => {
  const { exit } = useApp();
  const size = useWindowSize();
  const [at, setAt] = useState<Opening>(opening);
  useEffect(() => onReady?.(), [onReady]);

  const home = useCallback((says: string | null = null) => setAt({ screen: 'home', says }), []);
  const open = useCallback(
    (id: string) => {
      try {
        setAt({ screen: 'run', session: services.open(id) });
      } catch (problem) {
        home(saying(problem));
      }
    },
    [services, home],
  );
  const begin = useCallback(
    async (choice: RecipeChoice) => {
      try {
        setAt({ screen: 'run', session: await services.begin(choice) });
      } catch (problem) {
        home(saying(problem));
      }
    },
    [services, home],
  );

  const regions = regionsFor(size);
  if (regions === 'too-small') {
    return (
      <Box width={size.columns} height={size.rows} overflow="hidden" flexDirection="column">
        <InkText
          look={look}
          ink="strong"
        >{`Too small: ${LEAST.columns} x ${LEAST.rows} is the least.`}</InkText>
        <InkText look={look}>The batch goes on.</InkText>
      </Box>
    );
  }
  switch (at.screen) {
    case 'home':
      return (
        <HomeScreen
          look={look}
          regions={regions}
          services={services}
          says={at.says}
          onRecipe={choice => setAt({ screen: 'sheet', choice })}
          onBatch={open}
          onKitchen={() => setAt({ screen: 'kitchen' })}
          onBatches={() => setAt({ screen: 'batches' })}
          onAfter={place => setAt({ screen: 'after', place, from: 'home' })}
          onLeave={() => exit()}
        />
      );
    case 'welcome':
      return <WelcomeScreen look={look} regions={regions} services={services} onDone={() => home()} />;
    case 'kitchen':
      return <KitchenScreen look={look} regions={regions} services={services} onBack={() => home()} />;
    case 'batches':
      return (
        <BatchesScreen
          look={look}
          regions={regions}
          services={services}
          onOpen={open}
          onAfter={place => setAt({ screen: 'after', place, from: 'batches' })}
          onBack={() => home()}
        />
      );
    case 'after':
      return services.after ? (
        <RecordPlaces
          look={look}
          regions={regions}
          services={services}
          after={services.after}
          place={at.place}
          onBack={() => (at.from === 'home' ? home() : setAt({ screen: 'batches' }))}
        />
      ) : null;
    case 'sheet':
      return at.choice.recipe ? (
        <SheetScreen
          look={look}
          regions={regions}
          services={services}
          recipe={at.choice.recipe}
          onStart={recipe => void begin({ ...at.choice, recipe })}
          onBack={() => home()}
        />
      ) : null;
    case 'run':
      return (
        <RunController
          look={look}
          regions={regions}
          services={services}
          session={at.session}
          onLeave={() => {
            at.session.close();
            if (at.session.run.batch.finishedAt !== null) home();
            else exit();
          }}
        />
      );
  }
};
