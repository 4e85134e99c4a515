/** The steps of the batch in the margin of a wide terminal: done, now, and when the rest will be. */
import { Box } from 'ink';
import { memo } from 'react';
import type { Stop } from '../../core/batch/schedule.ts';
import { stepRow } from '../../core/batch/steps.ts';
import { STEP_NAMES } from '../../core/words/steps.ts';
import type { Look } from '../look.ts';
import { span } from '../spans.ts';
import { SpanLine } from './ink-text.tsx';

export interface StepListProps {
  readonly look: Look;
  readonly stops: readonly (Stop & { readonly clock: string })[];
  readonly width: number;
  readonly height: number;
}

/** As many stops as fit, the present one among them. */
function shown<T extends Stop>(stops: readonly T[], height: number): readonly T[] {
  if (stops.length <= height) return stops;
  const now = Math.max(
    0,
    stops.findIndex(stop => stop.state === 'now'),
  );
  const from = Math.min(Math.max(0, now - 3), stops.length - height);
  return stops.slice(from, from + height);
}

/** Several loads go through the same steps: which one it is belongs to the name. */
const nameOf = ({ step, load }: Stop, loads: number): string =>
  loads > 1 && stepRow(step).perLoad ? `${STEP_NAMES[step]} ${load}` : STEP_NAMES[step];

const INKS = { done: 'faint', now: 'accent', later: 'plain' } as const;

export const StepList = memo(({ look, stops, width, height }: StepListProps) => {
  const loads = Math.max(1, ...stops.map(({ load }) => load));
  return (
    <Box width={width} flexShrink={0} flexDirection="column" aria-hidden>
      {shown(stops, height).map(stop => {
        const mark = look.symbols[stop.state];
        const clock = stop.clock.padStart(9);
        const room = width - 2 - clock.length - 3;
        const name = [...nameOf(stop, loads)].slice(0, room).join('').padEnd(room);
        return (
          <SpanLine
            key={`${stop.step}${stop.load}`}
            look={look}
            spans={[
              span(`${mark} ${name}`, INKS[stop.state]),
              span(` ${clock}`, stop.state === 'now' ? 'accent' : 'faint'),
            ]}
          />
        );
      })}
    </Box>
  );
});
StepList.displayName = 'StepList';
