/** `plan RECIPE`: the plan sheet on stdout, as text or JSON. */
import { withDefaults } from '../core/kitchen.ts';
import { visibleJson } from '../core/text.ts';
import { pastSteps } from '../core/plan/past-steps.ts';
import { whatIfOf } from '../core/plan/what-if.ts';
import { DAY, MINUTE, type WallTime } from '../core/time.ts';
import { dateText, whenText } from '../face/format.ts';
import { type Aim, type SheetInput, type SheetView, sheetView } from '../face/sheet-view.ts';
import { listBatches } from '../shell/batches.ts';
import { EXIT, GrowerError } from '../shell/failure.ts';
import type { Arguments } from './arguments.ts';
import { planJson } from './plan-json.ts';
import { planText } from './plan-text.ts';
import { nextClock, readTime, type SaidTime } from './plan-time.ts';
import { wantedRecipe, type World } from './world.ts';

/** Prints the plan. Exit code 0 also when it says no: that is the answer. */
export async function plan({ words: [name = ''], json, options }: Arguments, world: World): Promise<number> {
  const { at, ready } = options;
  if (at !== undefined && ready !== undefined) {
    throw new GrowerError('A plan runs from a start (--at) or to an end (--ready), not both.', {
      exitCode: EXIT.usage,
    });
  }
  const said = timeOf('at', at) ?? timeOf('ready', ready);
  const { recipe } = await wantedRecipe(world, name);
  if (!recipe) throw new GrowerError('That recipe cannot be read.', { exitCode: EXIT.badFile });
  const known = withDefaults(world.settings.values.kitchen);
  const batches = listBatches(world.batches).flatMap(({ batch }) => (batch === null ? [] : [batch]));
  const planned = planAt(
    {
      base: recipe,
      known,
      past: pastSteps(batches),
      whatIf: whatIfOf(recipe),
      now: world.clock.sample().wall,
    },
    said,
    ready === undefined ? 'start' : 'ready',
  );
  process.stdout.write(json ? `${visibleJson(planJson(planned))}\n` : planText(planned));
  return EXIT.ok;
}

const timeOf = (option: string, text: string | true | undefined): SaidTime | null =>
  typeof text === 'string' ? readTime(option, text) : null;

/** The plan for the time that was asked for, or for the nearest that can be. */
export interface Planned {
  readonly view: SheetView;
  /** Why the asked time is not kept; null when it is. */
  readonly says: string | null;
  /** No day will do: the times are those from now. */
  readonly refused: boolean;
}
const kept = (view: SheetView): Planned => ({ view, says: null, refused: false });

/** How many days are tried for a time of day: soak, cooling and a night fit into that. */
const MOST_DAYS = 8;

/** The plan for a time that was said; a time that cannot be kept gets the nearest that can, and a sentence. */
export function planAt(
  input: Omit<SheetInput, 'aim'>,
  said: SaidTime | null,
  by: 'start' | 'ready',
): Planned {
  const { now } = input;
  const shown = (aim: Aim): SheetView => sheetView({ ...input, aim });
  if (said === null) return kept(shown(null));
  if (by === 'start') {
    const at = said.kind === 'instant' ? said.at : nextClock(said.hours, said.minutes, now);
    if (at >= now - MINUTE) return kept(shown({ by: 'start', at }));
    return {
      view: shown(null),
      says: `No: ${dayText(at, now)} is over; the times below begin now.`,
      refused: true,
    };
  }
  const inTime = (view: SheetView): boolean => view.timeline.startsAt >= now - MINUTE;
  if (said.kind === 'instant') {
    const view = shown({ by: 'ready', at: said.at });
    return inTime(view) ? kept(view) : tooLate(view, shown(null), said.at);
  }
  const first = nextClock(said.hours, said.minutes, now);
  let at = first;
  for (let day = 0; day < MOST_DAYS; day += 1) {
    const view = shown({ by: 'ready', at });
    if (inTime(view)) {
      const says =
        day === 0 ? null : `${dayText(first, now)} cannot be reached any more; this is ${dayText(at, now)}.`;
      return { view, says, refused: false };
    }
    at = nextClock(said.hours, said.minutes, at + MINUTE);
  }
  return tooLate(shown({ by: 'ready', at: first }), shown(null), first);
}

function tooLate(asked: SheetView, fromNow: SheetView, at: WallTime): Planned {
  const { now } = fromNow;
  if (at < now) {
    return {
      view: fromNow,
      says: `No: ${dayText(at, now)} is over; begun now it is ready ${dayText(fromNow.timeline.readyAt, now)}.`,
      refused: true,
    };
  }
  const begun = dayText(asked.timeline.startsAt, now);
  const earliest = dayText(fromNow.timeline.readyAt, now);
  return {
    view: fromNow,
    says: `No: to be ready ${dayText(at, now)} it would have had to begin ${begun}; begun now it is ready ${earliest}.`,
    refused: true,
  };
}

/** In the coming days the day's name will do; otherwise the date has to be there. */
const dayText = (wall: WallTime, now: WallTime): string =>
  wall >= now && wall - now < 6 * DAY ? whenText(wall, now) : `${dateText(wall)} ${whenText(wall, wall)}`;
