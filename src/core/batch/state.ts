/** What one batch is at an instant. Nothing here decides anything; what can happen to it is in `events.ts`. */
import type { Kitchen } from '../kitchen.ts';
import type { RunNumbers } from '../plan/numbers.ts';
import type { Recipe } from '../recipe/recipe.ts';
import type { CoachTime, WallTime } from '../time.ts';
import type { AskId, StepId } from './steps.ts';
import type { TroubleId } from './troubles.ts';

/** Frozen when the batch begins; first line of its journal. */
export interface BatchHeader {
  /** Short name, unique in this home: year, week and a counter, as `2648-1`. */
  readonly id: string;
  readonly recipe: Recipe;
  readonly kitchen: Kitchen;
  readonly numbers: RunNumbers;
  readonly beganWall: WallTime;
  /** A walk against the simulated cooker: never in the record. */
  readonly practice: boolean;
  /** What the person's earlier batches of this grain took; absent when there are none. */
  readonly learned?: Learned;
  /** What it was called in the home it was imported from, where that is another name. */
  readonly formerId?: string;
}

/** Medians over earlier batches of the same grain, soaked or not as this one; null when never seen. */
export interface Learned {
  /** From the first simmer to "translucent", s. */
  readonly simmerS: number | null;
  /** From spreading to a towel with one or two faint spots, s. */
  readonly dryingS: number | null;
  readonly batches: number;
}

export interface Container {
  readonly number: number;
  readonly load: number;
  readonly kg: number | null;
  readonly sealed: boolean;
  readonly seamFailures: number;
  readonly state: 'whole' | 'torn';
  readonly lifted: boolean;
  /** mL, or g of grain spawn; null until inoculated. */
  readonly dose: number | null;
  /** When it was; what was said of all the rest at once has that one instant. */
  readonly dosedAt: CoachTime | null;
  readonly leftOut: boolean;
}

export type GaugeBelief = 'at' | 'above' | 'below' | 'unknown';

export interface Reading {
  readonly t: CoachTime;
  readonly load: number;
  readonly step: StepId;
  /** kPa gauge when a number was read, else what the eye said. */
  readonly kPa: number | null;
  readonly seen: GaugeBelief | 'zero';
}

export interface Hold {
  /** Milliseconds believed at or above target since the last restart. */
  readonly creditMs: number;
  /** What of it the last answer at the gauge vouches for. */
  readonly vouchedMs: number;
  readonly belief: GaugeBelief;
  readonly dips: number;
  /** Credit given up by restarts, for the record. */
  readonly lostMs: number;
  /** Added to the planned minutes to make up for dips. */
  readonly extraMs: number;
}

/** A time below target in the hold. */
export interface Dip {
  readonly load: number;
  readonly from: CoachTime;
  /** Back at target; null while it lasts, or when the hold never came back. */
  readonly to: CoachTime | null;
  /** Minutes already held that the policy took back. */
  readonly lostMs: number;
  /** What was added to the hold. */
  readonly addedMs: number;
  /** Likely lethality it cost, min; null when nobody has worked it out. */
  readonly f0Min: number | null;
}

export type UnseenTold = 'stayed' | 'fell-below-now' | 'fell-back-now' | 'unknown';

/** Time at the stove that nobody watched; `told` is what was answered about the gauge, if it was asked. */
export interface Unseen {
  readonly from: CoachTime;
  readonly to: CoachTime;
  readonly told: UnseenTold | null;
}

/** What a thermometer was held to: the middle of a container, or the outside of the vessel. */
export type MeasuredPlace = 'centre' | 'vessel';

export interface Measured {
  readonly t: CoachTime;
  readonly load: number;
  readonly of: MeasuredPlace;
  readonly celsius: number;
}

export interface Lock {
  readonly heatOffAt: CoachTime;
  /** The pressure part: no override exists. */
  readonly pressureUntil: CoachTime;
  /** The part that protects the containers: a typed override may end it early. */
  readonly coolUntil: CoachTime;
  /** First answer "gauge at zero" after heat-off. */
  readonly zeroAt: CoachTime | null;
}

export interface Away {
  readonly from: CoachTime;
  readonly to: CoachTime;
  readonly why: 'restart' | 'asleep' | 'said';
}

export interface KernelCheck {
  readonly t: CoachTime;
  readonly centre: 'white-core' | 'thin-line' | 'translucent';
  readonly burst: 'none' | 'few' | 'many' | null;
}

export interface Deviation {
  readonly trouble: TroubleId;
  readonly t: CoachTime;
  readonly step: StepId;
  readonly load: number;
  readonly container: number | null;
  /** The answer that led to it was undone: kept, and said so. */
  readonly takenBack: boolean;
}

export interface StepTime {
  readonly step: StepId;
  readonly load: number;
  readonly from: CoachTime;
  readonly to: CoachTime | null;
}

/** How a batch stopped before its last step. */
export type EndedEarly = 'by-choice' | 'water-low' | 'over-pressure' | 'vent-blocked' | 'hold-cut-short';

export interface Batch {
  readonly header: BatchHeader;
  /** The latest instant this batch knows of, in coach time and by the wall clock at that instant. */
  readonly now: CoachTime;
  readonly wall: WallTime;
  readonly step: StepId;
  readonly ask: AskId;
  readonly since: CoachTime;
  readonly askSince: CoachTime;
  readonly times: readonly StepTime[];
  readonly load: number;
  readonly dryKg: number;
  /** Which filling of the pot is being simmered and drained, from 1. */
  readonly filling: number;
  /** Drained weight of the present filling. */
  readonly drainedKg: number | null;
  readonly cookerWaterL: number | null;
  readonly simmerFrom: CoachTime | null;
  readonly lookAt: CoachTime | null;
  readonly kernels: readonly KernelCheck[];
  /** When it is to be stirred again, and when somebody said last that it was. */
  readonly stirAt: CoachTime | null;
  readonly stirredAt: CoachTime | null;
  readonly towels: readonly { readonly t: CoachTime; readonly seen: string }[];
  readonly containers: readonly Container[];
  /** Which container the current question is about: an index into `containers`. */
  readonly cursor: number;
  /** Since when the steam is steady without a break. */
  readonly ventFrom: CoachTime | null;
  readonly ventBreaks: number;
  readonly hold: Hold;
  readonly lock: Lock | null;
  readonly readings: readonly Reading[];
  readonly measured: readonly Measured[];
  readonly dips: readonly Dip[];
  readonly unseen: readonly Unseen[];
  readonly deviations: readonly Deviation[];
  readonly away: Away | null;
  /** Time that only the wall clock vouches for, after the computer was restarted. */
  readonly claim: { readonly ms: number } | null;
  readonly endedEarly: EndedEarly | null;
  readonly finishedAt: CoachTime | null;
}

/** A batch with the states its last answers came from, newest last, for undo. */
export interface Run {
  readonly batch: Batch;
  readonly past: readonly Batch[];
}
