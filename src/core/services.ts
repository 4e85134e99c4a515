/** What the face may ask of the world outside: kitchens, recipes, batches. The shell gives it, tests fake it. */
import type { Batch } from './batch/state.ts';
import type { KitchenAnswers, KnownKitchen } from './kitchen.ts';
import type { Alerter } from './ports.ts';
import type { PracticeServices } from './practice/session.ts';
import type { AfterServices } from './record/after.ts';
import type { Recipe } from './recipe/recipe.ts';
import type { Session } from './session.ts';
import type { WallTime } from './time.ts';

export interface RecipeChoice {
  /** What `run` takes: a shipped or own recipe's name, or a path. */
  readonly name: string;
  readonly own: boolean;
  readonly recipe: Recipe | null;
  /** One sentence for each problem, with file, line and column. */
  readonly problems: readonly string[];
}

export interface BatchChoice {
  readonly id: string;
  readonly batch: Batch | null;
  readonly says: readonly string[];
}

export interface Services {
  readonly now: () => WallTime;
  /** Milliseconds of a clock that never jumps, to tell a meant key from a held one. */
  readonly steady: () => number;
  readonly kitchen: () => KnownKitchen;
  /** Null on success, else why it could not be kept. */
  readonly saveKitchen: (change: KitchenAnswers) => Promise<string | null>;
  /** The first questions have been asked: never again by themselves. */
  readonly kitchenWasAsked: () => void;
  readonly recipes: () => Promise<readonly RecipeChoice[]>;
  readonly batches: () => readonly BatchChoice[];
  /** Both throw an error with a sentence when the batch cannot be kept. */
  readonly begin: (choice: RecipeChoice) => Promise<Session>;
  readonly open: (id: string) => Session;
  /** Saves a batch's recipe beside the person's own; a sentence either way. */
  readonly saveRecipe: (batch: Batch) => Promise<string>;
  /** Record and diary; absent where no record is kept, as in practice. */
  readonly after?: AfterServices;
  readonly alerter: Alerter;
  /** Practising; absent where there is none. */
  readonly practice?: PracticeServices;
  /** Marks no screen may be without, such as a test clock. */
  readonly marks: readonly string[];
}
