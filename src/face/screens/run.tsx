/** The run: one thing to do, the one number, the pictures of the answers. */
import { Box } from 'ink';
import { placeOf } from '../../core/batch/schedule.ts';
import { endOf } from '../../core/batch/schedule.ts';
import { openAsk } from '../../core/batch/lockout.ts';
import { lastLoad, recipeOf } from '../../core/batch/moves.ts';
import type { Batch } from '../../core/batch/state.ts';
import type { TroubleId } from '../../core/batch/troubles.ts';
import { visible } from '../../core/text.ts';
import { askWords } from '../../core/words/asks.ts';
import { STEP_CAUTIONS } from '../../core/words/cautions.ts';
import { STEP_NAMES } from '../../core/words/steps.ts';
import type { Telling } from '../../core/words/telling.ts';
import { TROUBLE_WORDS } from '../../core/words/troubles.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { answersOf, countShown, picturesOf } from '../run-view.ts';
import { span } from '../spans.ts';
import { ChoiceRow, choiceRowHeight, choiceRowWidth } from '../widgets/choice-row.tsx';
import { CountView } from '../widgets/count-view.tsx';
import { answerRows } from '../widgets/frame.tsx';
import { InkText, SpanLine } from '../widgets/ink-text.tsx';
import { wrapAtMost } from '../wrap.ts';

export interface RunScreenProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly batch: Batch;
  readonly telling: Telling;
  /** The deviation noted last, until the next answer. */
  readonly told: TroubleId | null;
}

/** Head of a running batch: its name on the left, place and end on the right. */
export function runHead(batch: Batch, telling: Telling): { readonly left: string; readonly right: string } {
  const { at, of } = placeOf(batch);
  const name = visible(recipeOf(batch).name);
  const right =
    batch.finishedAt === null ? `step ${at} of ${of} · done about ${telling.clock(endOf(batch))}` : 'done';
  return { left: `${name} · ${batch.header.id}`, right };
}

function titleOf(batch: Batch): string {
  const load = lastLoad(batch) > 1 ? ` · load ${batch.load} of ${lastLoad(batch)}` : '';
  return `${STEP_NAMES[batch.step]}${load}`;
}

const LEAST_DIGITS = 3;

/** What of digits and pictures fits under the texts: pictures first, since a judgement needs them. */
function share(height: number, width: number, counts: boolean, pictures: number) {
  const compact = choiceRowHeight('compact');
  const large = choiceRowHeight('large');
  const digits = counts ? LEAST_DIGITS + 1 : 0;
  if (pictures === 0) return { scale: null, digitRows: height } as const;
  if (height >= large + digits + 1 && choiceRowWidth('large', pictures) <= width) {
    return { scale: 'large', digitRows: height - large - 2 } as const;
  }
  if (height >= compact + (counts ? digits : 0) && choiceRowWidth('compact', pictures) <= width) {
    return { scale: 'compact', digitRows: height - compact - 1 } as const;
  }
  return { scale: null, digitRows: height } as const;
}

export const RunScreen = ({ look, regions, batch, telling, told }: RunScreenProps) => {
  const width = regions.body.width;
  const extra = answerRows(answersOf(batch, telling), regions.columns - 2) - 1;
  const height = regions.body.height - extra;
  const roomy = height >= 15;
  const does = wrapAtMost(askWords(batch, openAsk(batch), telling), width, roomy ? 3 : 2);
  const caution = STEP_CAUTIONS[batch.step];
  const trouble = told ? TROUBLE_WORDS[told] : null;
  const warns = trouble
    ? [
        ...wrapAtMost(`${trouble.name}: ${trouble.means}`, width - 2, 2),
        ...wrapAtMost(trouble.act, width - 2, 2),
      ]
    : caution
      ? wrapAtMost(caution, width - 2, roomy ? 2 : 1)
      : [];
  const gap = roomy ? 1 : 0;
  const left = height - 1 - does.length - warns.length - gap * 2;
  const count = countShown(batch, telling);
  const pictures = picturesOf(batch, telling);
  const { scale, digitRows } = share(left, width, count !== null, pictures.length);
  return (
    <Box flexDirection="column" width={width}>
      <InkText look={look} ink="accent">
        {titleOf(batch)}
      </InkText>
      {does.map(line => (
        <InkText key={line} look={look} ink="strong">
          {line}
        </InkText>
      ))}
      {warns.map((line, index) => (
        <SpanLine
          key={line}
          look={look}
          spans={[
            span(index === 0 ? `${look.symbols.warn} ` : '  ', 'watch'),
            span(line, trouble ? 'watch' : 'faint'),
          ]}
        />
      ))}
      <Box height={gap} flexShrink={0} />
      {count && digitRows >= 1 ? (
        <CountView
          look={look}
          count={count.count}
          captions={count.captions}
          ink={count.ink}
          width={width}
          height={Math.min(digitRows - gap, scale === null ? 13 : 11)}
        />
      ) : null}
      {scale ? <Box height={count ? 1 : 0} flexShrink={0} /> : null}
      {scale ? <ChoiceRow look={look} choices={pictures} scale={scale} width={width} /> : null}
    </Box>
  );
};
