/** Pictures only practice needs: gasket, vent pipe held against the light, the simmering pot, grain on its towel. */
import { Canvas, checkShare, type Shade, scatter } from './pictures/canvas.ts';
import type { PictureOptions } from './pictures/frame.ts';
import type { Drawing } from './spans.ts';

/** The rubber ring from above; a cracked one is broken through in two places. */
export function gasketDrawing(cracked: boolean, { size, ascii }: PictureOptions): Drawing {
  const canvas = new Canvas({ ...size, ascii });
  const [middleX, middleY] = [size.width / 2, size.height];
  const outer = Math.min(size.width / 2, size.height) - 0.2;
  const inner = outer * 0.66;
  const shade: Shade = (across, down) => {
    const [x, y] = [across - middleX, down - middleY];
    const distance = Math.hypot(x, y);
    if (distance > outer || distance < inner) return null;
    return { ink: 'plain', fill: 'solid' };
  };
  canvas.shade(shade);
  if (!cracked) return canvas.drawing();
  const crack = ascii ? ['/', '\\'] : ['╱', '╲'];
  const rows = [Math.floor(size.height * 0.25), Math.floor(size.height * 0.7)];
  rows.forEach((row, index) => {
    const side = Math.sqrt(Math.max(0, ((outer + inner) / 2) ** 2 - (2 * row + 1 - middleY) ** 2));
    const column = Math.floor(middleX + (index === 0 ? side : -side)) - 1;
    canvas.text(column, row, ` ${crack[index]} `, 'danger');
    canvas.text(column - 1, row + 1, ` ${crack[index]} `, 'danger');
  });
  return canvas.drawing();
}

/** The vent pipe end on, against the light: a bright hole, or something in it. */
export function pipeDrawing(clear: boolean, { size, ascii }: PictureOptions): Drawing {
  const canvas = new Canvas({ ...size, ascii });
  const [middleX, middleY] = [size.width / 2, size.height];
  const outer = Math.min(size.width / 2, size.height) - 0.4;
  const hole = outer * 0.5;
  const shade: Shade = (across, down) => {
    const [x, y] = [across - middleX, down - middleY];
    const distance = Math.hypot(x, y);
    if (distance > outer) return null;
    if (distance > hole) return { ink: 'plain', fill: 'weave' };
    return clear ? { ink: 'plain', fill: 'clear' } : { ink: 'grain', fill: 'solid' };
  };
  canvas.shade(shade);
  if (!clear) return canvas.drawing();
  const ray = ascii ? '*' : '✶';
  canvas.text(Math.floor(middleX), Math.floor(middleY / 2), ray, 'strong');
  return canvas.drawing();
}

export interface PotPicture {
  /** 0 still, 1 rolling. */
  readonly boiling: number;
  /** 0 none, 1 over the rim. */
  readonly foam: number;
  readonly phase: number;
}

/** The pot from the side: water and grain, bubbles as it boils, foam that climbs to the rim. */
export function potDrawing({ boiling, foam, phase }: PotPicture, { size, ascii }: PictureOptions): Drawing {
  checkShare('boiling', boiling);
  checkShare('foam', foam);
  const canvas = new Canvas({ ...size, ascii });
  const { width, height } = size;
  const [wall, floor, wet, bubble, froth] = ascii ? ['|', '=', '~', 'o', '%'] : ['█', '▀', '░', '○', '▒'];
  const surface = Math.ceil(height * 0.55);
  const top = Math.round(surface - foam * surface);
  for (let row = 0; row < height - 1; row += 1) {
    if (row >= surface) canvas.text(1, row, wet.repeat(width - 2), 'water');
    else if (row >= top && foam > 0.04) canvas.text(1, row, froth.repeat(width - 2), 'grain');
    if (row > 0) {
      canvas.text(0, row, wall, 'plain');
      canvas.text(width - 1, row, wall, 'plain');
    }
  }
  const count = Math.round(boiling * (width - 3) * 0.9 + (boiling > 0.02 ? 1 : 0));
  for (let index = 0; index < count; index += 1) {
    const turn = Math.floor(phase) + index;
    const column = 1 + Math.floor(scatter(turn, index) * (width - 2));
    const row = surface + Math.floor(scatter(turn + 31, index) * Math.max(1, height - 1 - surface));
    canvas.text(column, row, bubble, 'strong');
  }
  canvas.text(0, height - 1, floor.repeat(width), 'plain');
  return canvas.drawing();
}

/** Kernels spread on the towel: wet ones shine. */
export function spreadDrawing(shine: number, { size, ascii }: PictureOptions): Drawing {
  checkShare('shine', shine);
  const canvas = new Canvas({ ...size, ascii });
  const { width, height } = size;
  const [dull, bright] = ascii ? ['o', '@'] : ['●', '◉'];
  for (let row = 0; row < height - 1; row += 1) {
    for (let column = row % 2; column < width; column += 2) {
      const wet = scatter(row, column) < shine;
      canvas.text(column, row, wet ? bright : dull, wet ? 'water' : 'grain');
    }
  }
  canvas.text(0, height - 1, (ascii ? '"' : '▔').repeat(width), 'cloth');
  return canvas.drawing();
}
