/** The world as the face sees it, in memory: recipes, batches, a steady clock set by hand, alerts written down. */
import { withDefaults, type KitchenAnswers } from '../../src/core/kitchen.ts';
import type { Alert, Alerter, Outward } from '../../src/core/ports.ts';
import type { BatchChoice, RecipeChoice, Services } from '../../src/core/services.ts';
import type { Session } from '../../src/core/session.ts';
import { BEGAN_WALL, sampleHeader, sampleRecipe } from './batch-kit.ts';
import { handSession } from './hand-session.ts';

export interface HandServices extends Services {
  readonly alerts: Alert[];
  readonly outward: Outward[];
  readonly begun: RecipeChoice[];
  readonly saved: KitchenAnswers[];
  steadyMs: number;
}

export interface ServiceWishes {
  readonly recipes?: readonly RecipeChoice[];
  readonly batches?: readonly BatchChoice[];
  readonly marks?: readonly string[];
  readonly open?: (id: string) => Session;
  /** Why nothing can be begun. */
  readonly beginFails?: string;
  /** What was said of the kitchen; left out, it is what a batch may not begin without showing. */
  readonly kitchen?: KitchenAnswers;
}

export const RYE: RecipeChoice = { name: 'rye-bags', own: false, recipe: sampleRecipe(), problems: [] };

export function handServices(wishes: ServiceWishes = {}): HandServices {
  let answers: KitchenAnswers = wishes.kitchen ?? { altitudeM: 640, markedMaxKPa: 124, minimumWaterL: 2 };
  const alerts: Alert[] = [];
  const outward: Outward[] = [];
  const alerter: Alerter = {
    raise: alert => void alerts.push(alert),
    answered: () => {},
    show: shown => void outward.push(shown),
    wish: () => {},
    close: () => {},
  };
  const begun: RecipeChoice[] = [];
  const saved: KitchenAnswers[] = [];
  const services: HandServices = {
    alerts,
    outward,
    begun,
    saved,
    steadyMs: 100_000,
    now: () => BEGAN_WALL,
    steady: () => services.steadyMs,
    kitchen: () => withDefaults(answers),
    saveKitchen: change => {
      saved.push(change);
      answers = { ...answers, ...change };
      return Promise.resolve(null);
    },
    kitchenWasAsked: () => {},
    recipes: () => Promise.resolve(wishes.recipes ?? [RYE]),
    batches: () => wishes.batches ?? [],
    begin: choice => {
      begun.push(choice);
      return wishes.beginFails === undefined
        ? Promise.resolve(handSession(sampleHeader()))
        : Promise.reject(new Error(wishes.beginFails));
    },
    open: wishes.open ?? (() => handSession(sampleHeader())),
    saveRecipe: () => Promise.resolve('Saved as mine.yaml.'),
    alerter,
    marks: wishes.marks ?? [],
  };
  return services;
}
