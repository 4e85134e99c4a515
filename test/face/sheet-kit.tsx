/** A plan sheet with everything around it faked: kitchen, past batches, clocks. */
import type { KitchenAnswers, KnownKitchen } from '../../src/core/kitchen.ts';
import { withDefaults } from '../../src/core/kitchen.ts';
import type { Recipe } from '../../src/core/recipe/recipe.ts';
import type { BatchChoice, Services } from '../../src/core/services.ts';
import { type Look, lookFor } from '../../src/face/look.ts';
import { type Regions, regionsFor } from '../../src/face/regions.ts';
import type { SheetScreenProps } from '../../src/face/screens/sheet.tsx';
import { sheetView, type SheetView } from '../../src/face/sheet-view.ts';
import { whatIfOf } from '../../src/core/plan/what-if.ts';
import { shipped } from '../help/plan-kit.ts';

/** A Wednesday evening in November, 18:30 in the tests' zone, where no clock changes are near. */
export const NOW = new Date(2026, 10, 25, 18, 30).getTime();
export const plainLook: Look = lookFor({ colour: 'none', ascii: false });
export const asciiLook: Look = lookFor({ colour: 'none', ascii: true });

export function regions(columns: number, rows: number): Regions {
  const found = regionsFor({ columns, rows });
  if (found === 'too-small') throw new Error(`${columns}x${rows} is too small`);
  return found;
}

export interface Stage {
  readonly props: SheetScreenProps;
  readonly begun: Recipe[];
  readonly saved: KitchenAnswers[];
  backs: number;
  /** Ms of the clock that tells a meant key from a held one. */
  steady: number;
}

export interface StageWishes {
  readonly columns?: number;
  readonly rows?: number;
  readonly recipe?: Recipe;
  readonly kitchen?: KitchenAnswers;
  readonly batches?: readonly BatchChoice[];
  readonly look?: Look;
  readonly refusesToSave?: string;
}

export function stage(wishes: StageWishes = {}): Stage {
  const { columns = 80, rows = 24, recipe = shipped('Rye'), kitchen = {}, look = plainLook } = wishes;
  const known: KnownKitchen = withDefaults(kitchen);
  const made: Stage = { begun: [], saved: [], backs: 0, steady: 0, props: {} as SheetScreenProps };
  const services = {
    now: () => NOW,
    steady: () => made.steady,
    kitchen: () => known,
    saveKitchen: (change: KitchenAnswers) => {
      made.saved.push(change);
      return Promise.resolve(wishes.refusesToSave ?? null);
    },
    batches: () => wishes.batches ?? [],
    marks: [],
  } as unknown as Services;
  return Object.assign(made, {
    props: {
      look,
      regions: regions(columns, rows),
      services,
      recipe,
      onStart: (changed: Recipe) => {
        made.begun.push(changed);
      },
      onBack: () => {
        made.backs += 1;
      },
    },
  });
}

export const viewOf = (
  recipe: Recipe,
  kitchen: KitchenAnswers = {},
  aim: SheetView['aim'] = null,
): SheetView =>
  sheetView({
    base: recipe,
    known: withDefaults(kitchen),
    past: [],
    whatIf: whatIfOf(recipe),
    aim,
    now: NOW,
  });
