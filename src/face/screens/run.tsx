/** The run: one thing to do, the one number, the pictures of the answers. */
import { Box } from 'ink';
import type { ReactNode } from 'react';
import { endOf, placeOf } from '../../core/batch/schedule.ts';
import { openAsk } from '../../core/batch/lockout.ts';
import { lastLoad, numbersOf, recipeOf } from '../../core/batch/moves.ts';
import type { Batch } from '../../core/batch/state.ts';
import { stepRow } from '../../core/batch/steps.ts';
import type { TroubleId } from '../../core/batch/troubles.ts';
import type { Estimate } from '../../core/estimate/estimate.ts';
import { visible } from '../../core/text.ts';
import { askWords } from '../../core/words/asks.ts';
import { numberRows } from '../../core/words/estimate.ts';
import { doneTitle } from '../../core/words/done.ts';
import { STEP_NAMES } from '../../core/words/steps.ts';
import type { Telling } from '../../core/words/telling.ts';
import { stoveLayout } from '../estimate-layout.ts';
import { minuteOfDay } from '../format.ts';
import { wallShift } from '../estimate-plot.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { figureOf } from '../run-figure.ts';
import {
  answersOf,
  type CountShown,
  countShown,
  estimateShown,
  outcomeLines,
  picturesOf,
  type Warning,
  warningOf,
} from '../run-view.ts';
import { span } from '../spans.ts';
import { ChoiceRow, choiceRowHeight, choiceRowWidth } from '../widgets/choice-row.tsx';
import { CountView } from '../widgets/count-view.tsx';
import { FigureView } from '../widgets/figure-view.tsx';
import { EstimateView } from '../widgets/estimate-view.tsx';
import { answerRows } from '../widgets/frame.tsx';
import { InkText, SpanLine } from '../widgets/ink-text.tsx';
import { StepText } from '../widgets/step-text.tsx';
import { wrapAtMost } from '../wrap.ts';
import { CarriedBody, carriedHere, OrderBody } from './run-notes.tsx';

export interface RunScreenProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly batch: Batch;
  readonly telling: Telling;
  /** The deviation noted last, until the next answer. */
  readonly told: TroubleId | null;
  /** As in the lesson, where nothing is hot: only what to do and to look at, no estimate and no caution. */
  readonly brief?: boolean;
}

const WIDE_HEAD = 72;

/** Head of a running batch: its name on the left, place and end on the right. */
export function runHead(
  batch: Batch,
  telling: Telling,
  columns: number,
): { readonly left: string; readonly right: string } {
  const { at, of } = placeOf(batch);
  // With a day before the clock time the name of the batch would have no room left.
  const ends = columns < WIDE_HEAD ? 'ends' : 'done about';
  const name = visible(recipeOf(batch).name);
  const right =
    batch.finishedAt === null
      ? `step ${at} of ${of} · ${ends} ${telling.clock(endOf(batch, minuteOfDay))}`
      : doneTitle(batch).toLowerCase();
  // Where room is short the name is cut and never the number by which the batch is known.
  return { left: `${batch.header.id} · ${name}`, right };
}

function titleOf(batch: Batch): string {
  // Grain is weighed, simmered and portioned for all loads at once.
  const isOfLoad = lastLoad(batch) > 1 && stepRow(batch.step).perLoad;
  const load = isOfLoad ? ` · load ${batch.load} of ${lastLoad(batch)}` : '';
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
  // Where there is no room for both, the number gives way.
  if (height >= compact && choiceRowWidth('compact', pictures) <= width) {
    const digitRows = height >= compact + digits ? height - compact - 1 : 0;
    return { scale: 'compact', digitRows } as const;
  }
  return { scale: null, digitRows: height } as const;
}

interface BodyProps extends RunScreenProps {
  readonly width: number;
  readonly height: number;
  readonly gap: number;
  readonly count: CountShown | null;
}

const Digits = ({ look, count, width, height }: BodyProps) =>
  count && height >= 1 ? (
    <CountView
      look={look}
      count={count.count}
      captions={count.captions}
      ink={count.ink}
      width={width}
      height={height}
    />
  ) : null;

/** The number and the pictures of a judgement. */
const JudgementBody = (props: BodyProps) => {
  const { look, batch, telling, width, height, gap, count } = props;
  const pictures = picturesOf(batch, telling);
  const figure = count ? null : figureOf(batch, openAsk(batch), telling);
  if (figure) return <FigureView look={look} figure={figure} width={width} height={Math.min(height, 11)} />;
  const { scale, digitRows } = share(height, width, count !== null, pictures.length);
  return (
    <>
      <Digits {...props} height={Math.min(digitRows - gap, scale === null ? 13 : 11)} />
      {scale ? <Box height={count && digitRows > 0 ? 1 : 0} flexShrink={0} /> : null}
      {scale ? <ChoiceRow look={look} choices={pictures} scale={scale} width={width} /> : null}
    </>
  );
};

/** The number, and the estimate as plot and figures. */
const StoveBody = (props: BodyProps & { readonly estimate: Estimate }) => {
  const { look, batch, telling, width, height, count, estimate } = props;
  const rows = numberRows(batch, estimate, telling);
  const pictures = picturesOf(batch, telling);
  const layout = stoveLayout({
    width,
    height,
    counts: count !== null,
    pictures: pictures.length,
    numbers: rows.length,
  });
  return (
    <>
      <Digits {...props} height={layout.digitRows} />
      <Box height={count && layout.plot ? 1 : 0} flexShrink={0} />
      <EstimateView
        look={look}
        estimate={estimate}
        shift={wallShift(batch)}
        boilC={numbersOf(batch).boilC}
        units={telling.units}
        rows={rows}
        layout={layout}
      />
      {layout.pictures ? <Box height={1} flexShrink={0} /> : null}
      {layout.pictures ? (
        <ChoiceRow look={look} choices={pictures} scale={layout.pictures} width={width} />
      ) : null}
    </>
  );
};

/** Beside each answer about time nobody watched: what it would mean. */
const OutcomeBody = ({ look, batch, telling, width }: BodyProps) => (
  <Box flexDirection="column" flexShrink={0}>
    {outcomeLines(batch, telling).map(({ shown, says, means }) => (
      <Box key={shown} flexDirection="column" flexShrink={0}>
        <SpanLine look={look} spans={[span(`${shown} `, 'accent'), span(says, 'strong')]} />
        {wrapAtMost(means, width - 4, 1).map(line => (
          <InkText key={line} look={look}>{`    ${line}`}</InkText>
        ))}
      </Box>
    ))}
  </Box>
);

export const RunScreen = (props: RunScreenProps) => {
  const { look, regions, batch, telling, told } = props;
  const width = regions.body.width;
  const extra = answerRows(answersOf(batch, telling), regions.columns - 2) - 1;
  const height = regions.body.height - extra;
  const roomy = height >= 15;
  const gap = roomy ? 1 : 0;
  const brief = props.brief === true && told === null;
  const estimate = brief ? null : estimateShown(batch);
  // Words before pictures: no instruction or caution is cut, what is drawn gets the rows that are left.
  const wordy = openAsk(batch) !== 'away-gauge';
  const does = wrapAtMost(askWords(batch, openAsk(batch), telling), width, roomy || wordy ? 4 : 2);
  // On a small screen what each answer about unseen time means needs every row.
  const quiet = brief || (!roomy && openAsk(batch) === 'away-gauge');
  const warning: Warning = quiet
    ? { lines: [], ink: 'faint' }
    : warningOf(batch, told, telling, { width: width - 2, most: wordy ? 6 : 2 });
  const carried = quiet || told !== null ? [] : carriedHere(batch, width, roomy || wordy);
  const left = height - 1 - does.length - carried.length - warning.lines.length - gap * (estimate ? 1 : 2);
  const body: BodyProps = { ...props, width, height: left, gap, count: countShown(batch, telling) };
  const drawn = (): ReactNode => {
    if (openAsk(batch) === 'away-gauge') return <OutcomeBody {...body} />;
    if (batch.step === 'gear') return <CarriedBody {...body} />;
    if (openAsk(batch) === 'clean') return <OrderBody {...body} />;
    return estimate ? <StoveBody {...body} estimate={estimate} /> : <JudgementBody {...body} />;
  };
  return (
    <Box flexDirection="column" width={width}>
      <StepText
        look={look}
        title={titleOf(batch)}
        titleInk="accent"
        does={does}
        carried={carried}
        warning={warning}
      />
      <Box height={gap} flexShrink={0} />
      {drawn()}
    </Box>
  );
};
