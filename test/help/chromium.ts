/** Headless Chromium, where there is one: pages to PDF, to pictures, and to what does not fit. */
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { PNG } from 'pngjs';
import type { Pixels } from './qr-read.ts';

export const CHROMIUM = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find(
  path => existsSync(path),
);
if (CHROMIUM === undefined)
  process.stdout.write('Skipped: there is no Chromium here to print the pages with.\n');

function run(folder: string, ...args: readonly string[]): string {
  if (CHROMIUM === undefined) throw new Error('No Chromium.');
  const usual = [
    '--headless',
    '--no-sandbox',
    '--disable-gpu',
    '--no-first-run',
    `--user-data-dir=${join(folder, 'profile')}`,
  ];
  return execFileSync(CHROMIUM, [...usual, ...args], {
    stdio: ['ignore', 'pipe', 'ignore'],
    timeout: 60_000,
  }).toString();
}

function file(folder: string, name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return pathToFileURL(path).href;
}

/** Number of printed pages, and their size in points. */
export function printed(folder: string, page: string): { pages: number; widthPt: number; heightPt: number } {
  const pdf = join(folder, 'page.pdf');
  run(folder, '--no-pdf-header-footer', `--print-to-pdf=${pdf}`, file(folder, 'page.html', page));
  const text = readFileSync(pdf, 'latin1');
  const box = /\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/.exec(text);
  return {
    pages: text.match(/\/Type\s*\/Page\b/g)?.length ?? 0,
    widthPt: Number(box?.[1]),
    heightPt: Number(box?.[2]),
  };
}

/** What an expression makes of the page: the page itself forbids scripts, the copy that is measured is allowed one. */
function measured(folder: string, page: string, expression: string): unknown {
  const copy = page
    .replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, '')
    .replace('</body>', `<script>document.title=JSON.stringify(${expression})</script></body>`);
  const dom = run(folder, '--window-size=1200,2000', '--dump-dom', file(folder, 'measured.html', copy));
  const title = /<title>(.*?)<\/title>/s.exec(dom)?.[1] ?? '["not measured"]';
  return JSON.parse(title.replaceAll('&amp;', '&').replaceAll('&lt;', '<').replaceAll('&gt;', '>'));
}

const all = (selector: string): string => `[...document.querySelectorAll(${JSON.stringify(selector)})]`;

/** The selectors' elements whose content is larger than they are, in print style; by text. */
export const overflowing = (folder: string, page: string, selector: string): readonly string[] =>
  measured(
    folder,
    page,
    `${all(selector)}.filter(e=>e.scrollHeight>e.clientHeight+1||e.scrollWidth>e.clientWidth+1).map(e=>e.textContent.slice(0,60))`,
  ) as string[];

/** Lower edge of the lowest of those elements, CSS pixels. */
export const lowest = (folder: string, page: string, selector: string): number =>
  measured(folder, page, `Math.max(...${all(selector)}.map(e=>e.getBoundingClientRect().bottom))`) as number;

/** A part of the page as pixels, in CSS pixels from its top left corner. */
export function pictured(folder: string, page: string, width: number, height: number): Pixels {
  const path = join(folder, 'shot.png');
  run(
    folder,
    `--window-size=${width},${height}`,
    '--hide-scrollbars',
    '--force-device-scale-factor=2',
    `--screenshot=${path}`,
    file(folder, 'shot.html', page),
  );
  const { data, width: w, height: h } = PNG.sync.read(readFileSync(path));
  return { data: new Uint8ClampedArray(data), width: w, height: h };
}

/** A rectangle cut out, for decoders that look for one code only. */
export function cut(
  { data, width, height }: Pixels,
  left: number,
  top: number,
  wide: number,
  high: number,
): Pixels {
  const out = new Uint8ClampedArray(wide * high * 4).fill(255);
  for (let row = 0; row < high && top + row < height; row += 1) {
    const from = ((top + row) * width + left) * 4;
    out.set(data.subarray(from, from + Math.min(wide, width - left) * 4), row * wide * 4);
  }
  return { data: out, width: wide, height: high };
}
