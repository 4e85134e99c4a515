/** Pages for the printer: self-contained, without scripts and without anything fetched. */
import { visible } from '../text.ts';

/** Text as text inside elements and quoted attributes (HTML Living Standard, 13.3: what serialising escapes). */
export const escapeHtml = (text: string): string =>
  visible(text)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');

export type Paper = 'A4' | 'Letter';
/** Millimetres, ISO 216 and ANSI/ASME Y14.1. */
export const PAPERS: Readonly<Record<Paper, { readonly widthMm: number; readonly heightMm: number }>> = {
  A4: { widthMm: 210, heightMm: 297 },
  Letter: { widthMm: 215.9, heightMm: 279.4 },
};

/** Millimetres with at most two decimals. */
export const mm = (value: number): string => `${Math.round(value * 100) / 100}mm`;

/** Whatever a page could fetch or run is forbidden, should anything ever slip through the escaping. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:";

export function htmlPage(title: string, style: string, body: string): string {
  return [
    '<!doctype html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${POLICY}">`,
    '<meta name="viewport" content="width=device-width">',
    `<title>${escapeHtml(title)}</title>`,
    `<style>${style}</style>`,
    '</head>',
    `<body>${body}</body>`,
    '</html>',
    '',
  ].join('\n');
}
