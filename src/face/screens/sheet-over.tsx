/** What lies over the plan sheet for a moment: the warnings before a batch begins, and help. */
import { Box } from 'ink';
import { KEYMAP } from '../keymap.ts';
import type { Look } from '../look.ts';
import { type SheetView, warningsIn } from '../sheet-view.ts';
import { warningRows } from '../sheet-more.ts';
import { type Row, span } from '../spans.ts';
import { SpanLine } from '../widgets/ink-text.tsx';
import { wrapLines } from '../wrap.ts';

export type Over = { readonly kind: 'warned' | 'help'; readonly from: number };

interface OverProps {
  readonly look: Look;
  readonly view: SheetView;
  readonly over: Over;
  readonly width: number;
  readonly height: number;
}

/** The signs of the sheet that no word beside them explains. */
const SIGNS: readonly (readonly [string, string])[] = [
  ['?', 'rests on a part of the kitchen that nobody said: it is assumed'],
  ['F0', 'minutes at 121.1 °C that the heat at the centre is worth; the aim is 15'],
  ['log kill', 'how many times a tough grain spore becomes ten times fewer'],
  ['enough?', 'your hold as a bar; the shaded part is what the estimates ask for, fast to cautious'],
  ['nights', 'full: you are needed; line: it waits by itself; dots: it waits at night'],
];
const NAME_WIDTH = 10;

function helpRows(width: number): readonly Row[] {
  const keys = KEYMAP.filter(
    ({ place, act }) => place === 'sheet' || place === 'everywhere' || act === 'choose',
  );
  const lines = [...keys.map(({ shown, says }) => [shown, says] as const), ...SIGNS];
  return lines.flatMap(([name, says]) =>
    wrapLines(says, width - NAME_WIDTH).map(
      (line, index): Row => [span((index === 0 ? name : '').padEnd(NAME_WIDTH), 'accent'), span(line)],
    ),
  );
}

/** The weighty ones in full, and how many more there are to know. */
function warnedRows(view: SheetView, width: number, look: Look): readonly Row[] {
  const all = warningsIn(view);
  const weighty = all.filter(({ weight }) => weight !== 'note');
  const notes = all.length - weighty.length;
  const more = notes === 1 ? 'One more thing to know is' : `${notes} more things to know are`;
  return [
    ...warningRows(weighty, width, look),
    ...(notes === 0 ? [] : [[span(`    ${more} on the sheet's last page.`, 'faint')]]),
  ];
}

const rowsOf = ({ look, view, over, width }: Omit<OverProps, 'height'>): readonly Row[] =>
  over.kind === 'help' ? helpRows(width) : warnedRows(view, width, look);

/** Rows under the title. */
const roomIn = (height: number): number => Math.max(1, height - 1);

/** The next screenful; null when the last row has been shown. */
export function nextOver(props: OverProps): Over | null {
  const from = props.over.from + roomIn(props.height);
  return from < rowsOf(props).length ? { ...props.over, from } : null;
}

export const OverPage = (props: OverProps) => {
  const { look, over, height } = props;
  const rows = rowsOf(props);
  const room = roomIn(height);
  const pages = Math.ceil(rows.length / room);
  const title = over.kind === 'help' ? 'Keys and signs of the plan sheet' : 'Before this batch begins';
  const place = pages > 1 ? `, page ${Math.floor(over.from / room) + 1} of ${pages}` : '';
  return (
    <Box flexDirection="column">
      <SpanLine look={look} spans={[span(`${title}${place}`, 'accent')]} />
      {rows.slice(over.from, over.from + room).map((row, index) => (
        <SpanLine key={index} look={look} spans={row} />
      ))}
    </Box>
  );
};
