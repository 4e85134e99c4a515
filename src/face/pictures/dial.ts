/** A dial gauge: needle, target mark, and the arc filled from zero to the needle. */

import type { Drawing } from '../spans.ts';
import { Canvas, type Shade } from './canvas.ts';
import type { PictureOptions } from './frame.ts';

export interface DialState {
  /** Gauge pressure shown by the needle, kPa; below zero rests on zero, above the scale on its end. */
  readonly kPa: number;
  readonly targetKPa: number;
  /** End of the scale, kPa. */
  readonly maxKPa: number;
  /** Name of the unit written in the face, and the reading in it; left out when not given. */
  readonly units?: string;
  readonly reading?: string;
}

// The scale runs clockwise over three quarters of the circle, open at the bottom. Radians from 12 o'clock.
const FIRST = (-135 / 180) * Math.PI;
const SWEEP = (270 / 180) * Math.PI;

const angleOf = (kPa: number, maxKPa: number) => FIRST + SWEEP * Math.min(1, Math.max(0, kPa / maxKPa));

/**
 * The gauge as it stands. The filled arc ends at the needle, so a reading below target leaves a gap before
 * the mark and one above runs past it. Throws RangeError unless 0 < target <= max and all are finite.
 */
export function dialDrawing(state: DialState, { size, ascii }: PictureOptions): Drawing {
  const { kPa, targetKPa, maxKPa, units, reading } = state;
  if (!Number.isFinite(kPa) || !(targetKPa > 0) || !(targetKPa <= maxKPa) || !Number.isFinite(maxKPa)) {
    throw new RangeError(`A dial needs 0 < target <= end of scale, not ${kPa}, ${targetKPa}, ${maxKPa} kPa.`);
  }
  const canvas = new Canvas({ ...size, ascii });
  const radius = Math.min(size.width / 2, size.height) - 0.1;
  const [middleX, middleY] = [size.width / 2, size.height];
  const [needle, target] = [angleOf(kPa, maxKPa), angleOf(targetKPa, maxKPa)];
  const band = Math.max(1.2, radius * 0.2);
  const past = kPa > targetKPa;
  const shade: Shade = (across, down) => {
    const [x, y] = [across - middleX, down - middleY];
    const distance = Math.hypot(x, y);
    const angle = Math.atan2(x, -y);
    if (distance > radius || Math.abs(angle) > -FIRST + 0.05) return null;
    const onSpoke = (at: number, half: number) =>
      Math.abs(distance * Math.sin(angle - at)) < half && Math.cos(angle - at) > 0;
    if (distance > radius - band) {
      if (onSpoke(target, 0.4)) return { ink: 'strong', fill: 'solid' };
      if (onSpoke(target, 1.2)) return { ink: 'plain', fill: 'clear' };
      if (angle <= needle) return { ink: past && angle > target ? 'danger' : 'accent', fill: 'solid' };
      return distance > radius - 0.55 ? { ink: 'faint', fill: 'line' } : null;
    }
    return onSpoke(needle, Math.max(0.36, radius * 0.05))
      ? { ink: 'strong', fill: ascii ? 'line' : 'solid' }
      : null;
  };
  canvas.shade(shade);
  const markRadius = radius - band - 1.1;
  canvas.text(
    Math.floor(middleX + markRadius * Math.sin(target)),
    Math.floor((middleY - markRadius * Math.cos(target)) / 2),
    ascii ? 'v' : '▼',
    'strong',
  );
  const label = [reading, units].filter(part => part !== undefined).join(' ');
  canvas.text(Math.floor((size.width - label.length) / 2), size.height - 1, label, 'strong');
  return canvas.drawing();
}
