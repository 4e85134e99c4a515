/** What all batches together tell: success by grain, size, hold or culture, and what other sizes would lose. */
import { Box } from 'ink';
import { useMemo, useState } from 'react';
import type { AfterServices } from '../../core/record/after.ts';
import { costOf } from '../../core/record/cost.ts';
import { forecast } from '../../core/record/loss.ts';
import { GROUPINGS, type Grouping, overallRate, type Rate, ratesBy } from '../../core/record/rates.ts';
import type { Services } from '../../core/services.ts';
import { visible } from '../../core/text.ts';
import { batchesText } from '../../core/words/count.ts';
import {
  contrastWords,
  costWords,
  forecastLines,
  NO_COST,
  rateWords,
  uncountedWords,
} from '../../core/words/record.ts';
import { actOf, HELP_KEY, ownBarOf } from '../keymap.ts';
import type { KeyName } from '../keys.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { type Span, span } from '../spans.ts';
import { useKeys } from '../use-keys.ts';
import { Frame } from '../widgets/frame.tsx';
import { InkText, SpanLine } from '../widgets/ink-text.tsx';
import { wrapAtMost } from '../wrap.ts';

export interface RecordScreenProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly services: Services;
  readonly after: AfterServices;
  readonly onBack: () => void;
}

/** The interval on a line from 0 to 100 %: its ends, the share, nothing where nothing is known. */
export function intervalBar(
  { interval, share }: Pick<Rate, 'interval' | 'share'>,
  width: number,
  ascii: boolean,
): readonly Span[] {
  const [line, point, rail] = ascii ? ['=', 'O', '.'] : ['━', '●', '·'];
  if (!interval || share === null) return [span(rail.repeat(width), 'faint')];
  const at = (part: number): number => Math.min(width - 1, Math.floor(part * width));
  const cells = Array.from({ length: width }, (_, cell) =>
    cell === at(share) ? point : cell >= at(interval.low) && cell <= at(interval.high) ? line : rail,
  );
  const [from, to] = [at(interval.low), at(interval.high) + 1];
  return [
    span(cells.slice(0, from).join(''), 'faint'),
    span(cells.slice(from, to).join(''), 'strong'),
    span(cells.slice(to).join(''), 'faint'),
  ];
}

type Page = Grouping | 'loss';
const PAGES: readonly Page[] = [...GROUPINGS];

export const RecordScreen = ({ look, regions, services, after, onBack }: RecordScreenProps) => {
  const { batches, notices } = useMemo(() => after.record(), [after]);
  const [page, setPage] = useState<Page>('grain');
  const press = (key: KeyName) => {
    const wanted = PAGES[Number(key) - 1];
    const act = actOf('record', key);
    if (act === 'group' && wanted) setPage(wanted);
    else if (act === 'loss') setPage('loss');
    else if (act === 'back' || act === 'leave') onBack();
  };
  useKeys(press, false, services.steady, undefined, ['record', 'everywhere']);
  const { units } = services.kitchen().kitchen;
  const { width, height } = regions.body;
  const rates = page === 'loss' ? [] : ratesBy(page, batches);
  const last = batches.at(-1)?.batch.header.recipe.containers;
  const loss = last
    ? forecast(batches, last.count * last.fillKg, [
        ...new Set([Math.max(1, Math.round(last.count / 2)), last.count, last.count * 2]),
      ])
    : null;
  const cost = costOf(batches);
  const texts =
    page === 'loss'
      ? [
          ...(loss ? forecastLines(loss, units) : ['No outcome is known yet, so no loss can be expected.']),
          ...[uncountedWords(batches.flatMap(({ bags }) => bags))].filter(text => text !== ''),
          '',
          cost ? costWords(cost) : NO_COST,
        ]
      : [];
  const contrast = contrastWords(rates);
  const bar = Math.max(10, Math.min(40, width - 30));
  const rows = Math.max(1, Math.floor((height - 4) / 2));
  return (
    <Frame
      look={look}
      regions={regions}
      left="Record"
      right={batchesText(batches.length)}
      marks={services.marks}
      notice={notices[0] ? { text: visible(notices[0]), ink: 'watch' } : null}
      answers={[
        ...GROUPINGS.map((grouping, index) => ({ shown: String(index + 1), says: `by ${grouping}` })),
        ...ownBarOf('record'),
      ]}
      tools={[{ shown: 'Esc', says: 'back' }, HELP_KEY]}
    >
      <InkText look={look} ink="accent">
        {page === 'loss' ? 'Loss and cost' : `Bags that became spawn, by ${page}`}
      </InkText>
      <InkText look={look}>{`all: ${rateWords(overallRate(batches))}`}</InkText>
      <Box height={1} flexShrink={0} />
      {rates.slice(0, rows).map(rate => (
        <Box key={rate.name} flexDirection="column" flexShrink={0}>
          <SpanLine
            look={look}
            spans={[
              span(visible(rate.name).slice(0, 24).padEnd(25), 'strong'),
              ...intervalBar(rate, bar, look.ascii),
            ]}
          />
          <InkText look={look} ink="faint">{`  ${rateWords(rate)}`}</InkText>
        </Box>
      ))}
      {texts
        .flatMap(text => wrapAtMost(text, width, 2))
        .map((line, index) => (
          <InkText key={`${index}${line}`} look={look}>
            {line === '' ? ' ' : line}
          </InkText>
        ))}
      <Box flexGrow={1} />
      {contrast === '' ? null : (
        <InkText look={look} ink="faint">
          {visible(contrast)}
        </InkText>
      )}
    </Frame>
  );
};
