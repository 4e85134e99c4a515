/** Practising as the full-screen face may ask for it; what simulates is only loaded when a practice begins. */
import type { PracticeNote, PracticeServices, PracticeSession } from '../core/practice/session.ts';
import { keepProgress, readProgress } from '../shell/practice-progress.ts';
import type { World } from './world.ts';

export function openPractice(world: World): PracticeServices {
  const { practice: folder } = world.places;
  return {
    begin: async (subject, wish) => (await import('./practise.ts')).beginPractice(world, subject, wish),
    keep: session => keepProgress(folder, noteOf(session, world)),
    notes: () => readProgress(folder),
    offersLesson: () => !world.settings.values.lessonOffered,
    lessonAnswered: () => {
      // Being offered it once more is the worst that can come of not keeping this.
      void world.settings.save({ lessonOffered: true }).catch(() => undefined);
    },
  };
}

function noteOf(session: PracticeSession, world: World): PracticeNote {
  const { seed, recipe, right, decisions, lost, next } = session.debrief();
  const wrong = decisions.filter(({ verdict }) => verdict !== 'right').map(({ id }) => id);
  const { wall } = world.clock.sample();
  return { wall, seed, recipe, right, of: decisions.length, lost, next, wrong: [...new Set(wrong)] };
}
