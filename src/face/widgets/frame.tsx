/** The quiet frame of every screen: head, body with an optional step list, notice and keys. */
import { Box } from 'ink';
import type { ReactNode } from 'react';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { type Ink, type Span, span } from '../spans.ts';
import { wrapAtMost } from '../wrap.ts';
import { InkText, SpanLine } from './ink-text.tsx';

export interface KeyLabel {
  readonly shown: string;
  readonly says: string;
  /** Left out where the line is too short, the highest first; help names it all the same. */
  readonly spare?: number;
}
export interface Notice {
  readonly text: string;
  readonly ink: Ink;
  /** Taken away after this time; left out, it stays until something else is said. */
  readonly lastsMs?: number;
}
export interface FrameProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly left: string;
  readonly right: string;
  /** Marks that no screen may be without: practice, a watching copy, a test clock. */
  readonly marks: readonly string[];
  readonly notice: Notice | null;
  readonly answers: readonly KeyLabel[];
  readonly tools: readonly KeyLabel[];
  readonly aside?: ReactNode;
  readonly children: ReactNode;
}

const keySpans = (labels: readonly KeyLabel[], ink: Ink, gap: number): Span[] =>
  labels.flatMap(({ shown, says }, index) => [
    span(`${index === 0 ? '' : ' '.repeat(gap)}${shown}`, 'accent'),
    span(` ${says}`, ink),
  ]);
const widthOf = (spans: readonly Span[]): number =>
  spans.reduce((sum, part) => sum + [...part.text].length, 0);

/** The keys in one line, or in two where they do not fit. */
function keyLines(labels: readonly KeyLabel[], ink: Ink, width: number): readonly (readonly Span[])[] {
  const wide = keySpans(labels, ink, 3);
  if (widthOf(wide) <= width || labels.length < 2) return [wide];
  const narrow = keySpans(labels, ink, 2);
  if (widthOf(narrow) <= width) return [narrow];
  const half = Math.ceil(labels.length / 2);
  return [keySpans(labels.slice(0, half), ink, 2), keySpans(labels.slice(half), ink, 2)];
}

/** From here down a key is left out only where a gap of one does not make room for it. */
const SELDOM_SPARED = 2;

/** The tools in one line: less gap first, then without those that can be spared. */
function toolLine(labels: readonly KeyLabel[], width: number): readonly Span[] {
  const most = Math.max(0, ...labels.map(({ spare = 0 }) => spare));
  for (const gap of most <= SELDOM_SPARED ? [3, 2, 1] : [3, 2]) {
    const spans = keySpans(labels, 'faint', gap);
    if (widthOf(spans) <= width) return spans;
  }
  return most === 0
    ? keySpans(labels, 'faint', 2)
    : toolLine(
        labels.filter(({ spare = 0 }) => spare < most),
        width,
      );
}

/** The lines of a notice: what to do stands at the end of a refusal, so a long one takes rows from the body. */
export const noticeLines = (notice: Notice | null, columns: number): readonly string[] =>
  notice ? wrapAtMost(notice.text, columns - 2, 3) : [' '];

/** Rows that the answers take, for a body that must know its height. */
export const answerRows = (labels: readonly KeyLabel[], width: number): number =>
  keyLines(labels, 'plain', width).length;

export const Frame = (props: FrameProps) => {
  const { look, regions, left, right, marks, notice, answers, tools } = props;
  const { columns, rows } = regions;
  const inner = columns - 2;
  const marked = marks.map(mark => `[${mark}] `).join('');
  const room = Math.max(0, inner - [...right].length - [...marked].length - 2);
  const lines = keyLines(answers, 'strong', inner);
  const said = noticeLines(notice, columns);
  return (
    <Box width={columns} height={rows} flexDirection="column" paddingX={1} overflow="hidden">
      <Box justifyContent="space-between" height={1} flexShrink={0}>
        <Box width={room + [...marked].length}>
          <SpanLine look={look} spans={[span(marked, 'danger'), span(left, 'strong')]} />
        </Box>
        <InkText look={look} ink="faint">
          {right}
        </InkText>
      </Box>
      <Box height={1} flexShrink={0} aria-hidden>
        <InkText look={look} ink="faint">
          {look.symbols.rule.repeat(inner)}
        </InkText>
      </Box>
      <Box flexGrow={1} flexShrink={1} overflow="hidden">
        {props.aside}
        <Box flexGrow={1} flexDirection="column" overflow="hidden">
          {props.children}
        </Box>
      </Box>
      <Box height={said.length} flexShrink={0} flexDirection="column">
        {said.map((line, index) => (
          <InkText key={`${index}said`} look={look} ink={notice?.ink ?? 'plain'}>
            {line}
          </InkText>
        ))}
      </Box>
      <Box height={1} flexShrink={0} aria-hidden>
        <InkText look={look} ink="faint">
          {look.symbols.rule.repeat(inner)}
        </InkText>
      </Box>
      {lines.map((spans, index) => (
        <Box key={`${index}answers`} height={1} flexShrink={0}>
          <SpanLine look={look} spans={spans} />
        </Box>
      ))}
      <Box height={1} flexShrink={0}>
        <SpanLine look={look} spans={toolLine(tools, inner)} />
      </Box>
    </Box>
  );
};
