/** What stands at the top of a step: its title, what to do, and a warning or caution below. */
import type { Look } from '../look.ts';
import type { Warning } from '../run-view.ts';
import { type Ink, span } from '../spans.ts';
import { InkText, SpanLine } from './ink-text.tsx';

export interface StepTextProps {
  readonly look: Look;
  readonly title: string;
  readonly titleInk: Ink;
  /** Lines already wrapped to the width. */
  readonly does: readonly string[];
  /** What an earlier batch left for this step, wrapped. */
  readonly carried?: readonly string[];
  readonly warning: Warning;
}

export const StepText = ({ look, title, titleInk, does, carried = [], warning }: StepTextProps) => (
  <>
    <InkText look={look} ink={titleInk}>
      {title}
    </InkText>
    {does.map(line => (
      <InkText key={line} look={look} ink="strong">
        {line}
      </InkText>
    ))}
    {carried.map(line => (
      <InkText key={line} look={look} ink="accent">
        {line}
      </InkText>
    ))}
    {warning.lines.map((line, index) => (
      <SpanLine
        key={line}
        look={look}
        spans={[span(index === 0 ? `${look.symbols.warn} ` : '  ', 'watch'), span(line, warning.ink)]}
      />
    ))}
  </>
);
