/** Which screen is up, and which one comes after it. */
import { useApp } from 'ink';
import { useCallback, useEffect, useState } from 'react';
import type { PracticeSession, PracticeSubject, PracticeWish } from '../core/practice/session.ts';
import type { RecipeChoice, Services } from '../core/services.ts';
import type { Session } from '../core/session.ts';
import { visible } from '../core/text.ts';
import type { Look } from './look.ts';
import type { Regions } from './regions.ts';
import { BatchesScreen } from './screens/batches.tsx';
import { HomeScreen } from './screens/home.tsx';
import { KitchenScreen } from './screens/kitchen.tsx';
import type { PracticeScreen } from './screens/practice.tsx';
import { type RecordPlace, RecordPlaces } from './screens/record-places.tsx';
import { RunController } from './screens/run-controller.tsx';
import { SheetScreen } from './screens/sheet.tsx';
import { WelcomeScreen } from './screens/welcome.tsx';

export type Opening =
  | { readonly screen: 'home'; readonly says: string | null }
  /** First questions; then the sheet of a recipe that was named, or home. */
  | { readonly screen: 'welcome'; readonly choice?: RecipeChoice }
  | { readonly screen: 'kitchen' }
  | { readonly screen: 'batches' }
  | { readonly screen: 'sheet'; readonly choice: RecipeChoice }
  | {
      readonly screen: 'practise';
      readonly subject: PracticeSubject | null;
      readonly wish: PracticeWish;
    }
  | { readonly screen: 'run'; readonly session: Session }
  | { readonly screen: 'after'; readonly place: RecordPlace; readonly from: 'home' | 'batches' | BatchEnd };

/** The last screen of a batch, from which one went on. */
interface BatchEnd {
  readonly batch: string;
}

/** A practice under way; its screen is only loaded when one begins. */
interface Practising {
  readonly screen: 'practice';
  readonly session: PracticeSession;
  readonly subject: PracticeSubject | null;
  readonly Screen: typeof PracticeScreen;
}

const saying = (problem: unknown): string =>
  visible(problem instanceof Error ? problem.message : String(problem));

export interface ScreensProps {
  readonly look: Look;
  readonly services: Services;
  readonly opening: Opening;
  readonly regions: Regions;
  /** Called when the keys are listened to; tests wait for it. */
  readonly onReady?: () => void;
}

/** The screen that is up; it begins with the one that was asked for. */
export const Screens = ({ look, services, opening, onReady, regions }: ScreensProps) => {
  const { exit } = useApp();
  const [at, setAt] = useState<Opening | Practising>(opening);
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
  const practise = useCallback(
    async (subject: PracticeSubject | null, wish: PracticeWish) => {
      try {
        const { PracticeScreen: Screen } = await import('./screens/practice.tsx');
        const session = await services.practice?.begin(subject, wish);
        if (session) setAt({ screen: 'practice', session, subject, Screen });
      } catch (problem) {
        home(saying(problem));
      }
    },
    [services, home],
  );
  useEffect(() => {
    if (opening.screen === 'practise') void practise(opening.subject, opening.wish);
  }, [opening, practise]);

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
          onPractise={(subject, wish) => void practise(subject, wish)}
          onLeave={() => exit()}
        />
      );
    case 'welcome':
      return (
        <WelcomeScreen
          look={look}
          regions={regions}
          services={services}
          onDone={() => (at.choice ? setAt({ screen: 'sheet', choice: at.choice }) : home())}
        />
      );
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
          onBack={() => {
            if (at.from === 'home') home();
            else if (at.from === 'batches') setAt({ screen: 'batches' });
            else open(at.from.batch);
          }}
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
          onPractise={subject => void practise(subject, {})}
          onBack={() => home()}
        />
      ) : null;
    case 'practise':
      return null;
    case 'practice':
      return services.practice ? (
        <at.Screen
          key={at.session.run.batch.header.beganWall}
          look={look}
          regions={regions}
          services={services}
          practice={services.practice}
          session={at.session}
          onAgain={wish => {
            at.session.close();
            void practise(at.subject, wish);
          }}
          onLeave={() => {
            at.session.close();
            // Who asked for a practice on the command line gets the command line back.
            if (opening.screen === 'practise') exit();
            else home();
          }}
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
          onAfter={place => {
            at.session.close();
            setAt({ screen: 'after', place, from: { batch: at.session.run.batch.header.id } });
          }}
        />
      );
  }
};
