/** From what the trainee sees to a picture and its caption: drawn from the simulated kitchen, never labelled right or wrong. */
import type { Batch } from '../core/batch/state.ts';
import type { Sight } from '../core/practice/sights.ts';
import type { Telling } from '../core/words/telling.ts';
import { dialText } from '../core/words/practice.ts';
import { bagDrawing, jarDrawing, warmthDrawing } from './pictures/containers.ts';
import { cookerDrawing, pinDrawing } from './pictures/cooker.ts';
import { dialDrawing } from './pictures/dial.ts';
import type { PictureOptions } from './pictures/frame.ts';
import { handfulDrawing, kernelDrawing } from './pictures/kernel.ts';
import { towelDrawing } from './pictures/towel.ts';
import { ventDrawing } from './pictures/vent.ts';
import { gasketDrawing, pipeDrawing, potDrawing, spreadDrawing } from './practice-pictures.ts';
import type { Drawing } from './spans.ts';

export interface SeenPicture {
  readonly drawing: Drawing;
  /** What it is a picture of, never what it shows. */
  readonly caption: string;
}

export interface Seeing {
  readonly batch: Batch;
  readonly telling: Telling;
  readonly seed: number;
  /** Simulated seconds: moves steam and bubbles. */
  readonly second: number;
}

/** The picture of a sight. */
export function seenPicture(sight: Sight, seeing: Seeing, options: PictureOptions): SeenPicture {
  const { batch, telling, seed, second } = seeing;
  switch (sight.kind) {
    case 'gasket':
      return { drawing: gasketDrawing(sight.cracked, options), caption: 'the gasket' };
    case 'vent-pipe':
      return { drawing: pipeDrawing(sight.clear, options), caption: 'the vent pipe' };
    case 'vent':
      return {
        drawing: ventDrawing({ steam: sight.steam, phase: (second % 97) * 0.27 }, options),
        caption: sight.hiss ? 'a hiss' : 'the vent',
      };
    case 'dial': {
      const { targetKPa } = batch.header.numbers;
      // The target stands at twelve o'clock, as on the pictures of the answers.
      const drawing = dialDrawing({ kPa: sight.kPa, targetKPa, maxKPa: 2 * targetKPa }, options);
      return { drawing, caption: dialText(sight.kPa, telling) };
    }
    case 'pot':
      return {
        drawing: potDrawing({ boiling: sight.boiling, foam: sight.foam, phase: second }, options),
        caption: 'the pot',
      };
    case 'kernel':
      return { drawing: kernelDrawing({ core: sight.core }, options), caption: 'cut kernel' };
    case 'handful':
      return { drawing: handfulDrawing({ burst: sight.burst, seed }, options), caption: 'a handful' };
    case 'grain':
      return { drawing: spreadDrawing(sight.shine, options), caption: 'spread grain' };
    case 'towel':
      return { drawing: towelDrawing({ wetness: sight.wetness, seed }, options), caption: 'the towel' };
    case 'water':
      return { drawing: cookerDrawing({ water: sight.share }, options), caption: 'the cooker' };
    case 'pin':
      return { drawing: pinDrawing(sight.up ? 'up' : 'down', options), caption: 'the lid pin' };
    case 'container': {
      const jar = batch.header.recipe.containers.kind === 'jar';
      const drawing = jar
        ? jarDrawing(sight.torn ? 'cracked' : 'intact', options)
        : bagDrawing(sight.torn ? 'torn' : 'intact', options);
      return { drawing, caption: `${jar ? 'jar' : 'bag'} ${batch.cursor + 1}` };
    }
    case 'warmth':
      return {
        drawing: warmthDrawing(sight.warm ? 'warm' : 'room', options),
        caption: 'fullest one',
      };
  }
}
