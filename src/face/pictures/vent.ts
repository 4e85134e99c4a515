/** Steam at the open vent: nothing, spurts, or one unbroken jet. */

import type { Drawing } from '../spans.ts';
import { Canvas, checkShare, type Shade, scatter } from './canvas.ts';
import type { PictureOptions, PictureSize } from './frame.ts';

export interface VentState {
  /** 0 none, to 0.15 wisps, to 0.75 spurts that come and go, above that a steady jet. */
  readonly steam: number;
  /** Moves the steam on; one whole number is one full cycle, any finite value will do. */
  readonly phase: number;
}

const WISPS = 0.15;
const STEADY = 0.75;

function drawLid(canvas: Canvas, { width, height }: PictureSize): void {
  const middle = Math.floor(width / 2);
  const { ascii } = canvas;
  const rim = Math.max(2, Math.floor(width / 8));
  canvas.text(middle - 1, height - 2, ascii ? '|' : '▐', 'strong');
  canvas.text(middle, height - 2, ' ', 'plain');
  canvas.text(middle + 1, height - 2, ascii ? '|' : '▌', 'strong');
  const line = ascii ? '=' : '▄';
  canvas.text(rim, height - 2, line.repeat(middle - 1 - rim), 'plain');
  canvas.text(middle + 2, height - 2, line.repeat(width - rim - middle - 2), 'plain');
  canvas.text(0, height - 1, (ascii ? '#' : '█').repeat(width), 'plain');
}

/** Half the width of the jet at a height above the vent, both in squares. */
const spread = (above: number, steam: number) => 1.2 + above * (0.1 + 0.38 * steam);

function jetShade({ steam, phase }: VentState, { width, height }: PictureSize): Shade {
  const middle = Math.floor(width / 2) + 0.5;
  const mouth = 2 * (height - 2);
  return (across, down) => {
    const above = mouth - down;
    if (above < 0) return null;
    const wave = 0.3 * Math.sin(2 * Math.PI * (above / 5 - phase));
    const off = Math.abs(across - middle + wave);
    const half = spread(above, steam);
    if (off > half) return null;
    return off < half * 0.72 ? { ink: 'steam', fill: 'solid' } : { ink: 'steam', fill: 'mist' };
  };
}

function puffShade({ steam, phase }: VentState, { width, height }: PictureSize): Shade {
  const middle = Math.floor(width / 2) + 0.5;
  const mouth = 2 * (height - 2);
  const apart = mouth / (height > 8 ? 3 : 1.6);
  const moved = (phase - Math.floor(phase)) * apart;
  const puffs = Array.from({ length: 5 }, (_, index) => {
    const above = moved + (index - 1) * apart + 1.4;
    const side = (scatter(7, index - Math.floor(phase)) - 0.5) * Math.max(0, above) * 0.35;
    return {
      x: middle + side,
      y: mouth - above,
      radius: (height > 8 ? 1.4 : 1) * (0.6 + 0.5 * steam) * (0.9 + Math.max(0, above) * 0.1),
    };
  });
  return (across, down) => {
    if (down > mouth) return null;
    return puffs.some(({ x, y, radius }) => ((across - x) / 1.25) ** 2 + (down - y) ** 2 <= radius ** 2)
      ? { ink: 'steam', fill: 'solid' }
      : null;
  };
}

function drawWisps(canvas: Canvas, { phase }: VentState, { width, height }: PictureSize): void {
  const middle = Math.floor(width / 2);
  for (let row = Math.floor(height / 2) - 1; row < height - 2; row += 1) {
    const sway = Math.round(Math.sin(2 * Math.PI * (phase + row / 4)));
    canvas.text(middle + sway, row, canvas.ascii ? '.' : '·', 'steam');
  }
}

/**
 * The vent pipe on its lid with the steam above it. A steady jet is unbroken from the pipe to the top,
 * spurts leave gaps, wisps are single dots. A share outside 0 to 1 throws RangeError.
 */
export function ventDrawing(state: VentState, { size, ascii }: PictureOptions): Drawing {
  checkShare('steam', state.steam);
  if (!Number.isFinite(state.phase)) throw new RangeError(`phase is a finite number, not ${state.phase}.`);
  const canvas = new Canvas({ ...size, ascii });
  if (state.steam > STEADY) canvas.shade(jetShade(state, size));
  else if (state.steam > WISPS) canvas.shade(puffShade(state, size));
  else if (state.steam > 0) drawWisps(canvas, state, size);
  drawLid(canvas, size);
  return canvas.drawing();
}
