/**
 * A practice: the coach's own machine, and the simulated kitchen beside it, moved together by whole seconds.
 * The person answers; the kitchen does what the answers say was done, and only the debrief tells the truth.
 */
import { holdLeftMs, isCounting } from '../batch/advance.ts';
import { begin, step } from '../batch/machine.ts';
import type { BatchEvent, Refusal } from '../batch/events.ts';
import type { Run } from '../batch/state.ts';
import { priced } from '../estimate/dips.ts';
import type { Kitchen } from '../kitchen.ts';
import type { RunNumbers } from '../plan/numbers.ts';
import type { Recipe } from '../recipe/recipe.ts';
import type { Deed } from '../session.ts';
import type { WallTime } from '../time.ts';
import { KNOB_TOP, turn } from './burner.ts';
import { checkSeed } from './chance.ts';
import { answered, enterStep, temptation } from './deeds.ts';
import { type FaultId, drawFaults } from './faults.ts';
import { type Sight, type SightKind, lookAt, sightKinds } from './sights.ts';
import { type Sense, type World, createWorld } from './world.ts';
import { passWorld } from './world-step.ts';

export interface PracticeOptions {
  readonly recipe: Recipe;
  readonly kitchen: Kitchen;
  readonly numbers: RunNumbers;
  /** 0 to 9999. */
  readonly seed: number;
  /** What is wrong; drawn from the seed when absent. */
  readonly faults?: readonly FaultId[];
  readonly beganWall: WallTime;
  /** What it is known by; its seed when absent. */
  readonly id?: string;
}

export class Practice {
  readonly seed: number;
  readonly faults: readonly FaultId[];
  run: Run;
  readonly #world: World;
  readonly #beganWall: WallTime;

  /** Throws RangeError for a seed outside 0 to 9999. */
  constructor({ recipe, kitchen, numbers, seed, faults, beganWall, id }: PracticeOptions) {
    this.seed = checkSeed(seed);
    this.faults = faults ?? drawFaults(seed);
    this.#beganWall = beganWall;
    this.#world = createWorld({ seed, faults: this.faults, recipe, kitchen, numbers });
    this.run = begin({
      id: id ?? `seed ${String(seed).padStart(4, '0')}`,
      recipe,
      kitchen,
      numbers,
      beganWall,
      practice: true,
    });
  }

  /** Whole seconds of the simulated world since the beginning. */
  get second(): number {
    return this.#world.second;
  }
  /** For the debrief and for tests: the trainee and the screens never see it. */
  get truth(): World {
    return this.#world;
  }
  get knob(): number {
    return this.#world.burner.knob;
  }
  /** The knob is open and nothing burns. */
  get flameOut(): boolean {
    return this.#world.burner.empty;
  }
  get valveOpen(): boolean | null {
    return this.#world.vessel?.open ?? null;
  }
  /** Second until which nobody is at the stove; null when somebody is. */
  get awayUntil(): number | null {
    return this.#world.awayUntil;
  }
  get senses(): readonly Sense[] {
    return this.#world.senses;
  }

  /** What can be seen now; null where there is nothing to see. */
  look(kind: SightKind): Sight | null {
    return sightKinds(this.run.batch).includes(kind) ? lookAt(this.#world, this.run.batch, kind) : null;
  }

  /** Lets whole seconds pass, for kitchen and coach alike. */
  pass(seconds: number): void {
    if (!Number.isInteger(seconds) || seconds < 0)
      throw new RangeError(`Whole seconds pass, not ${seconds}.`);
    for (let left = seconds; left > 0; ) {
      const { batch } = this.run;
      // The end of a hold comes by itself, and the kitchen has to be there when it does.
      const most = isCounting(batch) ? Math.max(1, Math.ceil(holdLeftMs(batch) / 1000)) : left;
      const chunk = Math.min(left, most);
      passWorld(this.#world, batch.step, chunk);
      left -= chunk;
      this.#tell({ type: 'tick', ...this.#now() });
      temptation(this.#world, this.run.batch);
    }
  }

  /** The trainee answers the coach; refused as in a real batch, and while nobody is at the stove. */
  send(deed: Deed): Refusal | null {
    if (this.#world.awayUntil !== null) return { code: 'not-here' };
    const before = this.run.batch;
    const refusal = this.#tell({ ...deed, ...this.#now() } as BatchEvent, deed);
    return refusal ?? (this.run.batch === before ? null : refusal);
  }

  /** The trainee turns the knob by one; false at its end, or while nobody is at the stove. */
  turnFlame(by: 1 | -1): boolean {
    const { burner, awayUntil } = this.#world;
    const knob = burner.knob + by;
    if (awayUntil !== null) return false;
    if (knob > KNOB_TOP && burner.empty) {
      turn(burner, burner.knob);
      return true;
    }
    if (knob < 0 || knob > KNOB_TOP) return false;
    turn(burner, knob);
    return true;
  }

  #now() {
    const t = this.#world.second * 1000;
    return { t, wall: this.#beganWall + t };
  }

  #tell(event: BatchEvent, deed?: Deed): Refusal | null {
    const before = this.run.batch;
    // As at the real stove, the answer that ends a dip carries what it cost.
    const outcome = step(this.run, priced(event, before));
    if (!outcome.ok) return outcome.refusal;
    this.run = outcome.run;
    const after = this.run.batch;
    if (deed) answered(this.#world, before, deed, after);
    if (after.step !== before.step) enterStep(this.#world, after.step, after);
    return null;
  }
}
