/** What an installation holds. */
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Figure } from './measure.ts';

function weigh(folder: string): { files: number; bytes: number } {
  let [files, bytes] = [0, 0];
  for (const name of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
    const stat = statSync(join(folder, name));
    if (!stat.isFile()) continue;
    files += 1;
    bytes += stat.size;
  }
  return { files, bytes };
}

export function size(): readonly Figure[] {
  const { files, bytes } = weigh(fileURLToPath(new URL('../../dist', import.meta.url)));
  return [
    {
      name: 'dist',
      figure: `${(bytes / 1e6).toFixed(2)} MB in ${files} files`,
      ratio: '',
      aim: '',
      met: null,
    },
  ];
}
