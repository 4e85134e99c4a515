/**
 * What the program keeps between batches, in one JSON file that the person may edit. Read by hand, since the
 * library that writes it is only loaded when something is saved, and since a damaged file must be kept and
 * reported instead of being replaced in silence.
 */

import { basename, dirname, extname } from 'node:path';
import { checkKitchen, underTheMark } from '../core/kitchen-check.ts';
import type { Settings, SettingsValues } from '../core/ports.ts';
import { atMost, visible } from '../core/text.ts';
import { EXIT, GrowerError, plainCause, reason } from './failure.ts';
import { errorCode, type FileLayer, freeName, nodeFiles, readStart } from './files.ts';

const DEFAULTS: SettingsValues = { kitchen: {}, lastRecipe: '', kitchenAsked: false, lessonOffered: false };
const LARGEST = 1 << 20;
const FILE_MODE = 0o600;

interface Checked {
  readonly values: SettingsValues;
  readonly notices: readonly string[];
}

/** Reads the settings; whatever is wrong with them becomes a notice, and defaults stand in. Never throws. */
export function openSettings(path: string, files: FileLayer = nodeFiles): Settings {
  const checked = readSettings(path, files);
  let values = checked.values;
  // One after the other: of two at once each would write what it knew, and undo the other.
  let before: Promise<void> = Promise.resolve();
  return {
    get values() {
      return values;
    },
    notices: checked.notices,
    save: change => {
      const saved = before.then(async () => {
        const next = { ...values, ...change };
        await writeSettings(path, next, files);
        values = next;
      });
      before = saved.catch(() => undefined);
      return saved;
    },
  };
}

function readSettings(path: string, files: FileLayer): Checked {
  let text: string;
  try {
    text = readStart(files, path, LARGEST + 1).toString();
  } catch (problem) {
    if (errorCode(problem) === 'ENOENT') return { values: DEFAULTS, notices: [] };
    const why = `The settings could not be read: ${reason(problem)}. The usual values stand in.`;
    return { values: DEFAULTS, notices: [why] };
  }
  try {
    if (text.length > LARGEST) throw new SyntaxError('too long');
    // Editors on some systems begin a file with a byte order mark.
    return checkSettings(JSON.parse(text.replace(/^\ufeff/, '')));
  } catch {
    return { values: DEFAULTS, notices: [setAside(path, files)] };
  }
}

/** Each bad value is named and replaced by the default; the others are kept. */
export function checkSettings(said: unknown): Checked {
  if (typeof said !== 'object' || said === null || Array.isArray(said))
    throw new SyntaxError('not an object');
  const notices: string[] = [];
  const part = <T>(
    key: keyof SettingsValues,
    good: (value: unknown) => value is T,
    wanted: string,
    other: T,
  ): T => {
    if (!Object.hasOwn(said, key)) return other;
    const value: unknown = Reflect.get(said, key);
    if (good(value)) return value;
    notices.push(`"${key}" is ${visible(atMost(JSON.stringify(value), 40))}, but must be ${wanted}.`);
    return other;
  };
  const isPath = (value: unknown): value is string =>
    typeof value === 'string' && value.length <= 4096 && !value.includes('\0');
  const isFlag = (value: unknown): value is boolean => typeof value === 'boolean';
  const kitchen = Object.hasOwn(said, 'kitchen')
    ? underTheMark(checkKitchen(Reflect.get(said, 'kitchen')))
    : null;
  notices.push(...(kitchen?.problems ?? []));
  const values = {
    kitchen: kitchen?.answers ?? {},
    lastRecipe: part('lastRecipe', isPath, 'the name of a recipe', DEFAULTS.lastRecipe),
    kitchenAsked: part('kitchenAsked', isFlag, 'true or false', DEFAULTS.kitchenAsked),
    lessonOffered: part('lessonOffered', isFlag, 'true or false', DEFAULTS.lessonOffered),
  };
  return { values, notices: notices.map(notice => `In the settings, ${notice} The usual value stands in.`) };
}

function setAside(path: string, files: FileLayer): string {
  const damaged = 'The settings file is damaged and the usual values stand in.';
  try {
    const name = freeName(files, path, 'damaged');
    files.rename(path, name);
    return `${damaged} It is kept as ${visible(name)}.`;
  } catch (problem) {
    return `${damaged} It could not be moved aside: ${reason(problem)}.`;
  }
}

/**
 * A library under conf listens to every signal from its first import on and then ends the program at once, so
 * that a running batch would not be closed. What it wants, temporary files tidied up, it also does at exit.
 */
async function loadConf() {
  const signals = () => process.eventNames().filter(name => String(name).startsWith('SIG'));
  const before = new Set(signals().flatMap(name => process.rawListeners(name)));
  const loaded = await import('conf');
  for (const name of signals()) {
    for (const listener of process.rawListeners(name)) {
      if (!before.has(listener)) process.removeListener(name, listener as () => void);
    }
  }
  return loaded.default;
}

async function writeSettings(path: string, values: SettingsValues, files: FileLayer): Promise<void> {
  try {
    files.folder(dirname(path));
    const Conf = await loadConf();
    const store = new Conf<SettingsValues>({
      cwd: dirname(path),
      configName: basename(path, extname(path)),
      fileExtension: extname(path).slice(1),
      configFileMode: FILE_MODE,
      accessPropertiesByDotNotation: false,
    });
    store.set({ ...values });
  } catch (problem) {
    const known = plainCause(problem);
    if (known === null && !(problem instanceof SyntaxError)) throw problem;
    const why = known?.says ?? 'the file there is damaged';
    throw new GrowerError(`The settings could not be kept: ${why}.`, {
      tryThis: [known?.tryThis ?? `Move ${path} away.`],
      exitCode: EXIT.cannotWrite,
      cause: problem,
    });
  }
}
