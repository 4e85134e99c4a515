/**
 * The picture of every answer to a judgement, by the ids of question and answer. A person must be able to
 * tell each from its neighbours without reading and without colour.
 */

import { type Drawing, type Row, span } from '../spans.ts';
import { bagDrawing, fillDrawing, jarDrawing, seamDrawing, warmthDrawing } from './containers.ts';
import { cookerDrawing, pinDrawing } from './cooker.ts';
import { dialDrawing } from './dial.ts';
import { COMPACT, LARGE, type PictureOptions } from './frame.ts';
import { type GrowthPicture, growthDrawing } from './growth.ts';
import { handfulDrawing, kernelDrawing } from './kernel.ts';
import { towelDrawing } from './towel.ts';
import { ventDrawing } from './vent.ts';

type Picture = (options: PictureOptions) => Drawing;

// The target stands at twelve o'clock, so that left of it is below and right of it above.
const gauge =
  (kPa: number): Picture =>
  options =>
    dialDrawing({ kPa, targetKPa: 100, maxKPa: 200 }, options);
const kernel =
  (core: number): Picture =>
  options =>
    kernelDrawing({ core }, options);
const handful =
  (burst: number): Picture =>
  options =>
    handfulDrawing({ burst, seed: 11 }, options);
const towel =
  (wetness: number): Picture =>
  options =>
    towelDrawing({ wetness, seed: 5 }, options);
const vent =
  (steam: number): Picture =>
  options =>
    ventDrawing({ steam, phase: 0.2 }, options);

const grown =
  (state: GrowthPicture): Picture =>
  options =>
    growthDrawing(state, options);

const PICTURES: Readonly<Record<string, Readonly<Record<string, Picture>>>> = {
  'kernel-centre': { 'white-core': kernel(0.75), 'thin-line': kernel(0.05), translucent: kernel(0) },
  burst: { none: handful(0), few: handful(0.23), many: handful(0.8) },
  towel: { soaked: towel(1), several: towel(0.75), faint: towel(0.3), dry: towel(0) },
  steam: { none: vent(0), spurts: vent(0.5), steady: vent(1), stopped: vent(0) },
  gauge: { below: gauge(45), at: gauge(100), above: gauge(150) },
  bag: { intact: o => bagDrawing('intact', o), torn: o => bagDrawing('torn', o) },
  fill: { below: o => fillDrawing('below filter', o), above: o => fillDrawing('above filter', o) },
  jar: { intact: o => jarDrawing('intact', o), cracked: o => jarDrawing('cracked', o) },
  seam: { good: o => seamDrawing('good', o), failed: o => seamDrawing('failed', o) },
  warmth: { warm: o => warmthDrawing('warm', o), room: o => warmthDrawing('room', o) },
  pin: { up: o => pinDrawing('up', o), down: o => pinDrawing('down', o) },
  growth: {
    colonising: grown('colonising'),
    shaken: grown('shaken'),
    done: grown('done'),
    contaminated: grown('contaminated'),
    used: grown('used'),
    discarded: grown('discarded'),
  },
  looks: { green: grown('green'), black: grown('black'), sour: grown('sour'), other: grown('other') },
  water: { enough: o => cookerDrawing({ water: 0.25 }, o), low: o => cookerDrawing({ water: 0 }, o) },
};

export type PictureScale = 'compact' | 'large';

/** Questions and answers that have pictures. */
export const picturedChoices = (): readonly (readonly [askId: string, choiceIds: readonly string[]])[] =>
  Object.entries(PICTURES).map(([ask, choices]) => [ask, Object.keys(choices)] as const);

/** Drawn once: they do not change, and a screen asks for them every second. */
const drawn = new Map<string, Drawing>();

/** The picture of an answer, or null when that answer has none. */
export function choicePictures(
  askId: string,
  choiceId: string,
  size: PictureScale,
  ascii: boolean,
): Drawing | null {
  const name = `${askId} ${choiceId} ${size} ${ascii}`;
  const before = drawn.get(name);
  if (before !== undefined) return before;
  const choices = Object.hasOwn(PICTURES, askId) ? PICTURES[askId] : undefined;
  const picture = choices !== undefined && Object.hasOwn(choices, choiceId) ? choices[choiceId] : undefined;
  if (picture === undefined) return null;
  const drawing = picture({ size: size === 'compact' ? COMPACT : LARGE, ascii });
  drawn.set(name, drawing);
  return drawing;
}

const widthOf = (drawing: Drawing): number =>
  (drawing[0] ?? []).reduce((sum, { text }) => sum + [...text].length, 0);

/** Drawings in one row, tops level, shorter ones filled up with blank rows; `gap` in cells. */
export function sideBySide(drawings: readonly Drawing[], gap: number): Drawing {
  const height = Math.max(0, ...drawings.map(drawing => drawing.length));
  return Array.from(
    { length: height },
    (_, row): Row =>
      drawings.flatMap((drawing, index) => [
        ...(index > 0 && gap > 0 ? [span(' '.repeat(gap))] : []),
        ...(drawing[row] ?? [span(' '.repeat(widthOf(drawing)))]),
      ]),
  );
}
