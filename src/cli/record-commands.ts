/** Commands about what comes after the batch; each is loaded when it is asked for. */
import type { Arguments } from './arguments.ts';
import type { World } from './world.ts';

/** Carries out the command; the answer is the exit code. */
export async function afterwards(said: Arguments, world: World): Promise<number> {
  switch (said.command) {
    case 'due':
    case 'calendar': {
      const { due, calendar } = await import('./due.ts');
      return said.command === 'due' ? due(said, world) : calendar(said, world);
    }
    case 'bag':
    case 'bags':
    case 'cultures': {
      const { bag, bags, cultures } = await import('./bag.ts');
      return { bag, bags, cultures }[said.command](said, world);
    }
    case 'labels':
    case 'card': {
      const { labels, card } = await import('./labels.ts');
      return said.command === 'labels' ? labels(said, world) : card(said, world);
    }
    case 'export':
      return (await import('./export.ts')).exportAll(said, world);
    case 'import':
      return (await import('./import.ts')).importAll(said, world);
    default: {
      const { record, compare, next } = await import('./record.ts');
      if (said.command === 'compare') return compare(said, world);
      return said.command === 'next' ? next(said, world) : record(said, world);
    }
  }
}
