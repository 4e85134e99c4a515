import { execFileSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { PROGRAM } from '../help/pty.ts';
import { tempFolder } from '../help/temp-folder.ts';

it('the code that the build kept is used: nothing of the first frame is compiled again', () => {
  const folder = dirname(PROGRAM);
  const home = tempFolder();
  const text = `
    import { loadProgram } from ${JSON.stringify(join(import.meta.dirname, '../../src/bundle.ts'))};
    import { pathToFileURL } from 'node:url';
    const said = [];
    const program = loadProgram(${JSON.stringify(folder)}, (file, { wasKept }) => said.push(file + ' ' + wasKept));
    const shipped = pathToFileURL(${JSON.stringify(join(folder, '../recipes'))});
    await program.run(['recipes', '--home', ${JSON.stringify(home)}], shipped);
    process.stderr.write(said.join('\\n'));
  `;
  const words = ['--disable-warning=ExperimentalWarning', '--input-type=module', '-e', `${text}`];
  const said = execFileSync('sh', ['-c', '"$0" "$@" 2>&1 >/dev/null', process.execPath, ...words], {
    encoding: 'utf8',
  });
  expect(said.split('\n')).toEqual(
    ['stovehand.js', 'libraries.js'].map(name => `${join(folder, name)} true`),
  );
});
