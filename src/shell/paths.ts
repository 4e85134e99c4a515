/** Where things live. A pure function of the platform and the environment, so that all three can be tested. */

import { posix, win32 } from 'node:path';
import { EXIT, GrowerError } from './failure.ts';

export interface Places {
  readonly home: string;
  readonly settings: string;
  readonly batches: string;
  readonly practice: string;
  /** Labels, cards and calendars that were given no name of their own. */
  readonly pages: string;
  /** The person's own recipes; the shipped ones come with the program. */
  readonly recipes: string;
}

export interface Surroundings {
  readonly platform: NodeJS.Platform;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly userHome: string;
  readonly cwd: string;
  /** Value of `--home`, when given. */
  readonly homeFlag?: string | undefined;
}

/**
 * Places by, in this order: `--home`, the variable STOVEHAND_HOME, the platform's habit (XDG Base Directory
 * Specification 0.8 on Linux and the like, Application Support on macOS, roaming AppData on Windows).
 * Throws GrowerError for an empty or unusable name.
 */
export function findPlaces(around: Surroundings): Places {
  const path = around.platform === 'win32' ? win32 : posix;
  const named = around.homeFlag ?? (around.env.STOVEHAND_HOME || undefined);
  const home = path.resolve(around.cwd, named === undefined ? habit(around) : usable(named));
  return {
    home,
    settings: path.join(home, 'settings.json'),
    batches: path.join(home, 'batches'),
    practice: path.join(home, 'practice'),
    pages: path.join(home, 'pages'),
    recipes: path.join(home, 'recipes'),
  };
}

function usable(named: string): string {
  if (named.trim() === '' || named.includes('\0')) {
    throw new GrowerError('The home folder given has no usable name.', {
      tryThis: ['Give a folder: --home ~/stovehand'],
      exitCode: EXIT.usage,
    });
  }
  return named;
}

function habit({ platform, env, userHome }: Surroundings): string {
  if (platform === 'win32') {
    return win32.join(env.APPDATA || win32.join(userHome, 'AppData', 'Roaming'), 'Stovehand');
  }
  if (platform === 'darwin') return posix.join(userHome, 'Library', 'Application Support', 'Stovehand');
  // The XDG specification asks for relative values to be ignored.
  const data = env.XDG_DATA_HOME ?? '';
  return posix.join(posix.isAbsolute(data) ? data : posix.join(userHome, '.local', 'share'), 'stovehand');
}
