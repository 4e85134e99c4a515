/**
 * Pages and calendars on disk, and opening one in the browser. Opening starts the second of the two child
 * processes this program knows (the other one speaks): a fixed program of the system, only when the person
 * asks with --open, no command interpreter, and a full path that cannot be taken for an option.
 */
import { spawn } from 'node:child_process';
import { statSync } from 'node:fs';
import { dirname, isAbsolute, join, posix, win32 } from 'node:path';
import { EXIT, GrowerError, reason } from './failure.ts';
import { createWhole, errorCode, type FileLayer, nodeFiles } from './files.ts';
import type { Environment } from './terminal-signals.ts';

/**
 * Writes a new file: under the name given, which must be free, or the first free `stem.ending` of a folder, which
 * is made when it is not there.
 */
export function writePage(
  text: string,
  named: string | null,
  stem: string,
  ending: string,
  folder: string,
  files: FileLayer = nodeFiles,
): string {
  let path = named ?? join(folder, stem + ending);
  for (let copy = 2; named === null && files.look(path) !== null; copy += 1)
    path = join(folder, `${stem}-${copy}${ending}`);
  try {
    if (named === null) files.folder(folder);
    createWhole(files, path, Buffer.from(text));
  } catch (problem) {
    if (errorCode(problem) === 'ENOENT' && files.look(dirname(path)) === null)
      throw new GrowerError(`There is no folder ${dirname(path)} to write into.`, {
        tryThis: ['Make it first, or give another name with --out.'],
        exitCode: EXIT.cannotWrite,
        cause: problem,
      });
    throw new GrowerError(`${path} could not be written: ${reason(problem)}.`, {
      tryThis: ['Nothing is ever written over: give another name with --out.'],
      exitCode: EXIT.cannotWrite,
      cause: problem,
    });
  }
  return path;
}

export interface OpenProgram {
  readonly program: string;
  readonly args: readonly string[];
}

const isFile = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isFile() === true;

/** What the system opens files with, or null. `exists` is a parameter so that all platforms can be tested. */
export function findOpener(
  platform: NodeJS.Platform,
  env: Environment,
  exists: (path: string) => boolean = isFile,
): OpenProgram | null {
  if (platform === 'win32') {
    const root = env.SystemRoot ?? env.SYSTEMROOT ?? '';
    const program = win32.join(root, 'explorer.exe');
    return win32.isAbsolute(root) && exists(program) ? { program, args: [] } : null;
  }
  if (platform === 'darwin') return exists('/usr/bin/open') ? { program: '/usr/bin/open', args: [] } : null;
  const folders = (env.PATH ?? '').split(':').filter(folder => posix.isAbsolute(folder));
  const program = folders.map(folder => posix.join(folder, 'xdg-open')).find(exists);
  return program === undefined ? null : { program, args: [] };
}

/** Opens a page; null when it was handed over, else a sentence. */
export function openPage(path: string, platform: NodeJS.Platform, env: Environment): Promise<string | null> {
  const opener = findOpener(platform, env);
  if (!opener || !isAbsolute(path))
    return Promise.resolve('No program to open it with was found: open it yourself.');
  return new Promise(done => {
    const child = spawn(opener.program, [...opener.args, path], {
      stdio: 'ignore',
      detached: true,
      shell: false,
      windowsHide: true,
    });
    child.on('error', problem => done(`It could not be opened: ${reason(problem)}.`));
    child.on('spawn', () => {
      child.unref();
      done(null);
    });
  });
}
