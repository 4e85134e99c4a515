/** The three pages of the plan sheet, drawn into the room they are given. */
import { Box } from 'ink';
import { WHAT_IF_LINES } from '../../core/plan/what-if.ts';
import { clockText, minuteOfDay } from '../format.ts';
import type { Look } from '../look.ts';
import { firstPage } from '../sheet-first.ts';
import { aimRows, fullRows, stepRows, TIME_LINES } from '../sheet-more.ts';
import { sheetPlot } from '../sheet-plot.ts';
import { timeRibbon } from '../sheet-ribbon.ts';
import type { SheetView } from '../sheet-view.ts';
import type { Row } from '../spans.ts';
import { DrawingView } from '../widgets/drawing-view.tsx';
import { SpanLine } from '../widgets/ink-text.tsx';

interface PageProps {
  readonly look: Look;
  readonly view: SheetView;
  readonly width: number;
  readonly height: number;
}

const Rows = ({ look, rows }: { readonly look: Look; readonly rows: readonly Row[] }) => (
  <Box flexDirection="column" flexShrink={0}>
    {rows.map((row, index) => (
      <SpanLine key={index} look={look} spans={row} />
    ))}
  </Box>
);

/** From here on the heat plot has room beside the sheet. */
const PLOT_FROM = 98;
const SHEET_WIDTH = 66;
const PLOT_ROWS = 18;

export const FactsPage = ({ look, view, width, height, picked }: PageProps & { readonly picked: number }) => {
  const beside = width >= PLOT_FROM;
  const sheet = beside ? Math.min(78, Math.max(SHEET_WIDTH - 6, width - 60)) : width;
  const rows = firstPage(view, { width: sheet, height, picked: WHAT_IF_LINES[picked] ?? null }, look);
  if (!beside) return <Rows look={look} rows={rows} />;
  const room = width - sheet - 3;
  const plotRows = Math.min(PLOT_ROWS, height);
  const left = height - plotRows - 1;
  const steps = left >= 6 ? stepRows(view, room, left, look).slice(0, left) : [];
  const plot = sheetPlot(view.plan.hold, {
    width: room,
    height: plotRows,
    ascii: look.ascii,
    units: view.plan.kitchen.units,
  });
  return (
    <Box>
      <Box width={sheet + 3} flexShrink={0}>
        <Rows look={look} rows={rows} />
      </Box>
      <Box width={room} flexShrink={0} flexDirection="column">
        <DrawingView drawing={plot} look={look} />
        {steps.length > 0 && <Box height={1} flexShrink={0} />}
        <Rows look={look} rows={steps} />
      </Box>
    </Box>
  );
};

/** Lines of the page of times that can be picked: the two that move, and so many more that it scrolls by. */
export const timePicks = (view: SheetView, width: number, height: number, look: Look): number =>
  TIME_LINES.length +
  Math.max(0, stepRows(view, width, height - TIME_LINES.length, look).length - height + TIME_LINES.length);

export const TimesPage = ({ look, view, width, height, picked }: PageProps & { readonly picked: number }) => {
  const aims = aimRows(view, TIME_LINES[picked] ?? null, look);
  const room = height - aims.length;
  const steps = stepRows(view, width, room, look);
  const from = Math.max(0, picked - TIME_LINES.length + 1);
  const spare = room - steps.length;
  const ribbon =
    spare >= 4 ? timeRibbon(view.timeline, { width, ascii: look.ascii, clock: clockText, minuteOfDay }) : [];
  return (
    <Box flexDirection="column">
      <Rows look={look} rows={aims} />
      {spare >= 1 && <Box height={1} flexShrink={0} />}
      <Rows look={look} rows={steps.slice(from, from + room)} />
      {ribbon.length > 0 && <Box height={1} flexShrink={0} />}
      <DrawingView drawing={ribbon} look={look} />
    </Box>
  );
};

export const FullPage = ({ look, view, width, height, scroll }: PageProps & { readonly scroll: number }) => (
  <Rows look={look} rows={fullRows(view, width, look).slice(scroll, scroll + height)} />
);
