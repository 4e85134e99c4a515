/** Plot and numbers of the estimate side by side, or the numbers alone. */
import { Box, Text } from 'ink';
import { memo, useMemo } from 'react';
import type { Estimate } from '../../core/estimate/estimate.ts';
import type { Units } from '../../core/kitchen.ts';
import type { NumberRow } from '../../core/words/estimate.ts';
import { estimatePlot } from '../estimate-plot.ts';
import type { StoveLayout } from '../estimate-layout.ts';
import type { Look } from '../look.ts';
import { DrawingView } from './drawing-view.tsx';

export interface EstimateViewProps {
  readonly look: Look;
  readonly estimate: Estimate;
  /** From coach time to the wall clock, ms. */
  readonly shift: number;
  /** Where water boils here, C. */
  readonly boilC: number;
  readonly units: Units;
  readonly rows: readonly NumberRow[];
  readonly layout: StoveLayout;
}

const NAME = 9;

interface NumbersProps {
  readonly look: Look;
  readonly rows: readonly NumberRow[];
  readonly width: number;
}

const Numbers = ({ look, rows, width }: NumbersProps) => (
  <Box width={width} flexShrink={0} flexDirection="column">
    {rows.map(({ name, value, band }) => (
      <Text key={name} wrap="truncate">
        <Text {...look.inks.faint}>{name.padEnd(NAME)} </Text>
        <Text {...look.inks.strong}>{value}</Text>
        {band === '' ? '' : ` (${band})`}
      </Text>
    ))}
  </Box>
);

const Plot = memo(
  ({
    look,
    estimate,
    shift,
    boilC,
    units,
    width,
    height,
  }: Omit<EstimateViewProps, 'rows' | 'layout'> & {
    readonly width: number;
    readonly height: number;
  }) => {
    const drawing = useMemo(
      () => estimatePlot(estimate, { shift, boilC }, units, { width, height, ascii: look.ascii }),
      [estimate, shift, boilC, units, width, height, look.ascii],
    );
    // The numbers beside it say the same, so a screen reader is spared the dots.
    return <DrawingView look={look} drawing={drawing} />;
  },
);
Plot.displayName = 'Plot';

const sameRows = (a: readonly NumberRow[], b: readonly NumberRow[]): boolean =>
  a.length === b.length &&
  a.every(
    (row, index) =>
      row.value === b[index]?.value && row.band === b[index]?.band && row.name === b[index]?.name,
  );

/** Redrawn only when a figure changed: a second that only counts down costs no more than without it. */
export const EstimateView = memo(
  ({ look, estimate, shift, boilC, units, rows, layout }: EstimateViewProps) => (
    <Box flexShrink={0}>
      {layout.plot ? (
        <Plot
          look={look}
          estimate={estimate}
          shift={shift}
          boilC={boilC}
          units={units}
          width={layout.plot.width}
          height={layout.plot.height}
        />
      ) : null}
      {layout.plot ? <Box width={2} flexShrink={0} /> : null}
      <Numbers look={look} rows={rows.slice(0, layout.numbers)} width={layout.numbersWidth} />
    </Box>
  ),
  (before, after) =>
    before.look === after.look &&
    before.estimate === after.estimate &&
    before.shift === after.shift &&
    before.units === after.units &&
    JSON.stringify(before.layout) === JSON.stringify(after.layout) &&
    sameRows(before.rows, after.rows),
);
EstimateView.displayName = 'EstimateView';
