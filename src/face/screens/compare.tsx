/** Two batches side by side; what differs is marked. */
import { useMemo, useState } from 'react';
import type { AfterServices } from '../../core/record/after.ts';
import { compareBatches } from '../../core/record/compare.ts';
import type { Services } from '../../core/services.ts';
import { visible } from '../../core/text.ts';
import { countOf } from '../../core/words/count.ts';
import { actOf, HELP_KEY } from '../keymap.ts';
import type { KeyName } from '../keys.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { span } from '../spans.ts';
import { useKeys } from '../use-keys.ts';
import { Frame } from '../widgets/frame.tsx';
import { wrapLines } from '../wrap.ts';
import { SpanLine } from '../widgets/ink-text.tsx';

export interface CompareScreenProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly services: Services;
  readonly after: AfterServices;
  readonly left: string;
  readonly right: string;
  readonly onBack: () => void;
}

const NAME = 16;

export const CompareScreen = ({
  look,
  regions,
  services,
  after,
  left,
  right,
  onBack,
}: CompareScreenProps) => {
  const { units } = services.kitchen().kitchen;
  const rows = useMemo(() => {
    const [first, second] = [after.batch(left), after.batch(right)];
    return first && second ? compareBatches(first, second, units) : [];
  }, [after, left, right, units]);
  const differing = rows.filter(({ differs }) => differs).length;
  const [onlyDiffering, setOnly] = useState(false);
  const [from, setFrom] = useState(0);
  const shown = onlyDiffering ? rows.filter(({ differs }) => differs) : rows;
  const column = Math.max(10, Math.floor((regions.body.width - NAME - 2) / 2));
  // A long value goes on in the next line: nothing that is compared is cut.
  const lines = shown.flatMap(row => {
    const [first, second] = [row.left, row.right].map(text => wrapLines(visible(text), column - 1));
    return Array.from({ length: Math.max(first?.length ?? 0, second?.length ?? 0) }, (_, index) => ({
      key: `${row.name} ${index}`,
      mark: row.differs && index === 0,
      name: index === 0 ? row.name : '',
      left: first?.[index] ?? '',
      right: second?.[index] ?? '',
      differs: row.differs,
    }));
  });
  const room = regions.body.height - 1;
  const most = Math.max(0, lines.length - room);
  const press = (key: KeyName) => {
    const act = actOf('compare', key);
    if (act === 'narrow') {
      setOnly(!onlyDiffering);
      setFrom(0);
    } else if (key === 'down' || key === 'pagedown')
      setFrom(Math.min(most, from + (key === 'down' ? 1 : room)));
    else if (key === 'up' || key === 'pageup') setFrom(Math.max(0, from - (key === 'up' ? 1 : room)));
    else if (act === 'back' || act === 'leave') onBack();
  };
  useKeys(press, false, services.steady, undefined, ['compare', 'list', 'everywhere']);
  const cell = (text: string): string => text.padEnd(column);
  return (
    <Frame
      look={look}
      regions={regions}
      left="Compare"
      right={countOf(differing, 'differs', 'differ')}
      marks={services.marks}
      notice={rows.length === 0 ? { text: 'One of them cannot be read.', ink: 'watch' } : null}
      answers={[
        { shown: 'Space', says: onlyDiffering ? 'everything' : 'only what differs' },
        ...(most > 0 ? [{ shown: '↑↓', says: 'more' }] : []),
      ]}
      tools={[{ shown: 'Esc', says: 'back' }, HELP_KEY]}
    >
      <SpanLine look={look} spans={[span(' '.repeat(NAME + 2)), span(cell(left) + cell(right), 'accent')]} />
      {lines.slice(from, from + room).map(row => (
        <SpanLine
          key={row.key}
          look={look}
          spans={[
            span(row.mark ? `${look.symbols.now} ` : '  ', 'watch'),
            span(row.name.padEnd(NAME), 'faint'),
            span(cell(row.left) + cell(row.right), row.differs ? 'strong' : 'plain'),
          ]}
        />
      ))}
    </Frame>
  );
};
