/** Practice: the coach's own run screen with the simulated kitchen beside it, then the debrief. */
import { useEffect, useRef, useState } from 'react';
import { wantedNow } from '../../core/batch/wanted.ts';
import { isMistake } from '../../core/practice/mistakes.ts';
import type {
  PracticeNote,
  PracticeServices,
  PracticeSession,
  PracticeWish,
} from '../../core/practice/session.ts';
import { mustLook, sightKinds } from '../../core/practice/sights.ts';
import type { Alerter } from '../../core/ports.ts';
import type { Services } from '../../core/services.ts';
import { MISTAKE_WORDS, SENSE_WORDS } from '../../core/words/practice.ts';
import { wantedWords } from '../../core/words/wanted.ts';
import { countText, tellingOf } from '../format.ts';
import { actOf, KEYMAP } from '../keymap.ts';
import type { KeyName } from '../keys.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { seenPicture } from '../practice-sights.ts';
import { picturesOf } from '../run-view.ts';
import { useRun } from '../use-session.ts';
import type { Notice } from '../widgets/frame.tsx';
import { PracticeDebrief } from './practice-debrief.tsx';
import { PracticeSide, sidePicture, sideWidth } from './practice-side.tsx';
import { RunController } from './run-controller.tsx';

export interface PracticeScreenProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly services: Services;
  readonly practice: PracticeServices;
  readonly session: PracticeSession;
  readonly onAgain: (wish: PracticeWish) => void;
  readonly onLeave: () => void;
}

/** Which of the things that can be looked at is looked at; starts over with every question. */
function useLook(session: PracticeSession): {
  kind: ReturnType<typeof sightKinds>[number] | null;
  next: () => void;
} {
  const { batch } = session.run;
  const place = `${batch.step}${batch.ask}${batch.cursor}`;
  const [looked, setLooked] = useState({ place, turn: mustLook(batch) ? -1 : 0 });
  const turn = looked.place === place ? looked.turn : mustLook(batch) ? -1 : 0;
  const kinds = sightKinds(batch);
  return {
    kind: turn < 0 ? null : (kinds[turn % Math.max(1, kinds.length)] ?? null),
    next: () => setLooked({ place, turn: turn + 1 }),
  };
}

/** The keys of the simulated burner's knob. */
const FLAME_KEYS: readonly KeyName[] = KEYMAP.filter(
  ({ place, act }) => place === 'practice' && (act === 'hotter' || act === 'cooler'),
).flatMap(({ keys }) => keys);

/** What became of the note of a practice: why it could not be kept, and all notes with it. */
interface Kept {
  readonly trouble: string | null;
  readonly notes: readonly PracticeNote[];
}

const nothing = () => {};
/** A demo calls nobody: there is nothing to be answered. */
const SILENT: Alerter = {
  raise: nothing,
  answered: nothing,
  show: nothing,
  wish: nothing,
  close: nothing,
};

/** What a demo shows, and how to leave it, in one line. */
function demoWords({ mistakes = [] }: PracticeWish, width: number): string {
  const keys = 's sets its speed, q ends it.';
  const only = mistakes.length === 1 ? mistakes.find(isMistake) : undefined;
  if (mistakes.length > 1) return `A demo with ${mistakes.length} mistakes. ${keys}`;
  if (!only) return `A demo: it looks and answers. ${keys}`;
  const whole = `A demo: it ${MISTAKE_WORDS[only]}. ${keys}`;
  return whole.length <= width ? whole : `A demo of ${only}. ${keys}`;
}

function sensed({ heard }: PracticeSession): Notice | null {
  return heard && { text: SENSE_WORDS[heard.code], ink: heard.code === 'burnt-smell' ? 'danger' : 'watch' };
}

/** Why nobody may sleep now. */
function awakeWords({ run, knob, flameOut }: PracticeSession): string {
  const wanted = wantedNow(run.batch);
  if (wanted) return `Not now: ${wantedWords(wanted)}.`;
  return knob > 0 && !flameOut ? 'Not now: the flame is on.' : 'Not now: there is nothing to sleep through.';
}

/** Why the clock was slowed, where the coach wants something by now; the alert that says so may be silent. */
function slowedFor({ run, pace, speed }: PracticeSession): Notice | null {
  const wanted = pace < speed ? wantedNow(run.batch) : null;
  return wanted && { text: `Wanted: ${wantedWords(wanted)}.`, ink: 'faint' };
}

export const PracticeScreen = (props: PracticeScreenProps) => {
  const { look, regions, services, practice, session, onAgain, onLeave } = props;
  const { batch } = useRun(session);
  const { kind, next } = useLook(session);
  const finished = batch.finishedAt !== null;
  const [kept, setKept] = useState<Kept | null>(null);
  const noted = useRef<PracticeSession | null>(null);
  useEffect(() => {
    if (!finished || noted.current === session || session.wish.auto) return;
    noted.current = session;
    const trouble = practice.keep(session);
    setKept({ trouble, notes: practice.notes() });
  }, [finished, practice, session]);

  if (finished) {
    return (
      <PracticeDebrief
        look={look}
        regions={regions}
        services={services}
        notes={kept?.notes ?? practice.notes()}
        session={session}
        trouble={kept?.trouble ?? null}
        onAgain={onAgain}
        onLeave={onLeave}
      />
    );
  }

  const { units } = services.kitchen().kitchen;
  const heard: Services = session.wish.auto ? { ...services, alerter: SILENT } : services;
  const telling = tellingOf(batch, units);
  const { width, height } = regions.body;
  const kinds = sightKinds(batch);
  const atStove = ['heat', 'vent', 'climb', 'hold'].includes(batch.step);
  const size = sidePicture(
    width,
    height,
    atStove || kinds.length === 0 || picturesOf(batch, telling).length > 0,
  );
  // Nobody at the stove sees nothing of it.
  const sight = kind === null || session.awayS !== null ? null : session.look(kind);
  const seeing = { batch, telling, seed: session.seed, second: session.second };
  const seen = sight === null ? null : seenPicture(sight, seeing, { size, ascii: look.ascii });

  const onKey = (key: KeyName): boolean | string => {
    const done = (act: () => void): true => {
      act();
      return true;
    };
    const act = actOf('practice', key);
    if (act === 'help') return false;
    if (act === 'leave') return session.wish.auto ? done(onLeave) : false;
    if (act === 'faster') return done(() => session.faster());
    if (session.wish.auto) return 'It plays by itself: s speed, q leave.';
    // The notice says how long still; nothing is said that would hide that somebody is back.
    if (session.awayS !== null) return true;
    switch (act) {
      case 'hotter':
        return session.turnFlame(1) || 'The flame is full.';
      case 'cooler':
        return session.turnFlame(-1) || 'The flame is off.';
      case 'look':
        return kinds.length > 0 ? done(next) : 'Nothing to look at here.';
      case 'sleep':
        return session.sleep() || awakeWords(session);
      default:
        return false;
    }
  };
  const away: Notice | null =
    session.awayS === null
      ? null
      : {
          text: `The phone rang: you are away, ${countText(session.awayS * 1000, 'down')} more.`,
          ink: 'watch',
        };
  const says = session.tip(kind)?.says ?? null;
  const tip: Notice | null = says === null ? null : { text: says, ink: 'accent' };
  const demo: Notice | null = session.wish.auto
    ? { text: demoWords(session.wish, regions.columns - 2), ink: 'faint' }
    : null;
  return (
    <RunController
      look={look}
      regions={regions}
      session={session}
      services={heard}
      onLeave={onLeave}
      extras={{
        // On a narrow screen the seed would be cut for it, and the notice says it all the same.
        marks: session.wish.auto && regions.columns >= 80 ? ['demo'] : [],
        brief: session.wish.lesson === true,
        onKey,
        turning: FLAME_KEYS,
        notice: away ?? sensed(session) ?? tip ?? demo ?? slowedFor(session),
        sideWidth: sideWidth(size),
        side: (
          <PracticeSide
            look={look}
            session={session}
            seen={seen}
            canLook={kinds.length > 1 || (mustLook(batch) && kinds.length > 0)}
            height={height}
            size={size}
          />
        ),
      }}
    />
  );
};
