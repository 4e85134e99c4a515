/** What lies over the run for a moment: a number, a word, the list of troubles, help, leaving. */
import { Box } from 'ink';
import { WORDS } from '../../core/batch/machine.ts';
import { openAsk } from '../../core/batch/lockout.ts';
import type { TypedPurpose } from '../../core/batch/events.ts';

import { askWords, choiceWords, doseUnit } from '../../core/words/asks.ts';
import { STEP_NAMES } from '../../core/words/steps.ts';
import { fitDigits } from '../digits.ts';
import { measureFor } from '../amounts.ts';
import { KEY_COLUMN, runHelp } from '../help-lines.ts';
import { endingsOf } from '../run-keys.ts';
import { span } from '../spans.ts';
import { DrawingView } from '../widgets/drawing-view.tsx';
import { InkText, SpanLine } from '../widgets/ink-text.tsx';
import { wrapAtMost } from '../wrap.ts';
import { type PanelProps, Sheet } from './panel-sheet.tsx';
import { MeasurePanel, NumbersPanel, PicturesPanel, WherePanel } from './stove-panels.tsx';
import { CausesPanel, EndsPanel, TroublePanel } from './trouble-panels.tsx';

const ENDING_NAMES: Readonly<Record<TypedPurpose, string>> = {
  'end-batch': 'end this batch here; where there may be pressure the lock runs first',
  'open-early': 'open before it is cool: bags may tear, and it stays in the record',
  'end-soak': 'end the soak early: the simmer will take longer',
  'end-hold': 'end this hold early: a higher risk for every container',
  'clock-right': 'the clock is right: the time it claims did pass',
};

const EndingPanel = ({ look, regions, batch }: PanelProps) => (
  <Sheet look={look} title="End something early: each asks for a typed word">
    {endingsOf(batch).map((purpose, index) => (
      <Box key={purpose} marginTop={1} flexDirection="column">
        {wrapAtMost(ENDING_NAMES[purpose], regions.body.width - 3, 2).map((line, row) => (
          <SpanLine
            key={line}
            look={look}
            spans={[span(row === 0 ? `${index + 1}  ` : '   ', 'accent'), span(line)]}
          />
        ))}
      </Box>
    ))}
  </Sheet>
);

const WordPanel = ({ look, regions, panel }: PanelProps) => {
  if (panel.kind !== 'word') return null;
  return (
    <Sheet look={look} title="This needs a typed word">
      <Box marginTop={1} flexDirection="column">
        {wrapAtMost(`To ${ENDING_NAMES[panel.purpose]}:`, regions.body.width, 3).map(line => (
          <InkText key={line} look={look}>
            {line}
          </InkText>
        ))}
      </Box>
      <Box marginTop={1}>
        <SpanLine
          look={look}
          spans={[
            span('type '),
            span(WORDS[panel.purpose], 'watch'),
            span(' and Enter   '),
            span(`${panel.text}_`, 'strong'),
          ]}
        />
      </Box>
    </Sheet>
  );
};

const AmountPanel = ({ look, regions, batch, telling, units, panel }: PanelProps) => {
  if (panel.kind !== 'amount') return null;
  const unit = panel.of === 'dose' ? doseUnit(batch) : measureFor(panel.of, units).unit;
  const height = Math.min(9, regions.body.height - 5);
  const digits = fitDigits(panel.text === '' ? '0' : panel.text, {
    width: regions.body.width - 14,
    height,
    ascii: look.ascii,
    ink: panel.text === '' ? 'faint' : 'strong',
  });
  return (
    <Sheet look={look} title={`How much? (${choiceWords(batch, panel.ask, panel.choice, telling)})`}>
      <Box marginTop={1} paddingLeft={2}>
        <DrawingView look={look} drawing={digits} label={`${panel.text} ${unit}`} />
        <Box paddingLeft={2} alignItems="flex-end">
          <InkText look={look}>{unit}</InkText>
        </Box>
      </Box>
    </Sheet>
  );
};

const HelpPanel = ({ look, regions, batch, panel }: PanelProps) => {
  const asked = panel.kind === 'help' ? panel.page : 0;
  const page = runHelp(batch, regions, asked);
  return (
    <Sheet look={look} title={page.of > 1 ? `Keys, page ${page.at + 1} of ${page.of}` : 'Keys'}>
      {page.lines.map(({ id, shown, says }) => (
        <SpanLine key={id} look={look} spans={[span(shown.padEnd(KEY_COLUMN), 'accent'), span(says)]} />
      ))}
    </Sheet>
  );
};

const Saying = ({
  look,
  regions,
  title,
  says,
}: PanelProps & { readonly title: string; readonly says: string }) => (
  <Sheet look={look} title={title}>
    <Box marginTop={1} flexDirection="column">
      {wrapAtMost(says, regions.body.width, 8).map(line => (
        <InkText key={line} look={look} ink="strong">
          {line}
        </InkText>
      ))}
    </Box>
  </Sheet>
);

const UNDOES =
  '(The record keeps the answer, marked as taken back. No lock gets shorter, no minute is credited; in the hold and the vent you are asked again.)';
const LEAVES =
  'The batch goes on without it: flame, steam and clock do not stop. Start Stovehand again to go on; time nobody watched will be asked about.';
const LEAVES_PRACTICE =
  'This practice ends here, and nothing of it is kept. No flame is on but a simulated one.';

/** The panel that is open, or nothing while the step's own question is. */
export const PanelScreen = (props: PanelProps) => {
  switch (props.panel.kind) {
    case 'amount':
      return <AmountPanel {...props} />;
    case 'trouble':
      return <TroublePanel {...props} />;
    case 'causes':
      return <CausesPanel {...props} />;
    case 'ends':
      return <EndsPanel {...props} />;
    case 'where':
      return <WherePanel {...props} />;
    case 'measure':
      return <MeasurePanel {...props} />;
    case 'numbers':
      return <NumbersPanel {...props} />;
    case 'pictures':
      return <PicturesPanel {...props} />;
    case 'ending':
      return <EndingPanel {...props} />;
    case 'word':
      return <WordPanel {...props} />;
    case 'help':
      return <HelpPanel {...props} />;
    case 'sure':
      return <Saying {...props} title="Really so much?" says={props.panel.says} />;
    case 'undo':
      return (
        <Saying
          {...props}
          title="Take back the last answer?"
          says={`Back to ${STEP_NAMES[props.panel.to.step]}: ${askWords(props.panel.to, openAsk(props.panel.to), props.telling)} ${UNDOES}`}
        />
      );
    case 'wipe':
      return (
        <Saying
          {...props}
          title="Keyboard locked"
          says="Wipe away: no key does anything. Unlock with w, then Enter. The batch goes on and will still ring."
        />
      );
    case 'leave':
      return (
        <Saying
          {...props}
          title="Leave the coach?"
          says={props.batch.header.practice ? LEAVES_PRACTICE : LEAVES}
        />
      );
    case 'ask':
      return null;
  }
};
