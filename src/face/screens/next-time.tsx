/** What the record would change next time, taken into a recipe of one's own with one key. */
import { Box } from 'ink';
import { useMemo, useState } from 'react';
import type { AfterServices } from '../../core/record/after.ts';
import { changedAfter, nextTime } from '../../core/record/next-time.ts';
import type { Services } from '../../core/services.ts';
import { visible } from '../../core/text.ts';
import { HINT_CAUTION } from '../../core/words/causes.ts';
import { changeEvidence, changeReason, proposalWords, unchangedWords } from '../../core/words/next-time.ts';
import { actOf, HELP_KEY, ownBarOf } from '../keymap.ts';
import type { KeyName } from '../keys.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { useKeys } from '../use-keys.ts';
import { Frame, type Notice } from '../widgets/frame.tsx';
import { InkText } from '../widgets/ink-text.tsx';
import { wrapAtMost } from '../wrap.ts';

export interface NextTimeScreenProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly services: Services;
  readonly after: AfterServices;
  readonly batch: string;
  readonly onBack: () => void;
}

export const NextTimeScreen = ({ look, regions, services, after, batch, onBack }: NextTimeScreenProps) => {
  const recorded = useMemo(() => after.batch(batch), [after, batch]);
  const changes = useMemo(() => {
    if (!recorded) return [];
    const before = changedAfter(recorded.batch.header.recipe);
    return nextTime(recorded, before === null ? null : after.batch(before));
  }, [recorded, after]);
  const [notice, setNotice] = useState<Notice | null>(null);
  const [saved, setSaved] = useState(false);
  const save = async () => {
    if (!recorded || changes.length === 0 || saved) return;
    setSaved(true);
    setNotice({ text: visible(await after.saveNext(recorded, changes)), ink: 'good' });
  };
  const press = (key: KeyName) => {
    const act = actOf('next', key);
    if (act === 'accept') void save();
    else if (act === 'back' || act === 'leave') onBack();
  };
  useKeys(press, false, services.steady, undefined, ['next', 'everywhere']);
  const { units } = services.kitchen().kitchen;
  const { width } = regions.body;
  return (
    <Frame
      look={look}
      regions={regions}
      left={`Next time, after ${batch}`}
      right={changes.length === 0 ? '' : `${changes.length} to change`}
      marks={services.marks}
      notice={notice}
      answers={changes.length > 0 && !saved ? ownBarOf('next') : []}
      tools={[{ shown: 'Esc', says: 'back' }, HELP_KEY]}
    >
      {changes.length === 0 ? (
        <Box flexDirection="column" flexShrink={0}>
          {wrapAtMost(recorded ? unchangedWords(recorded.bags) : 'This batch cannot be read.', width, 3).map(
            line => (
              <InkText key={line} look={look} ink="accent">
                {line}
              </InkText>
            ),
          )}
        </Box>
      ) : null}
      {changes.map((change, index) => (
        <Box key={change.id} flexDirection="column" flexShrink={0}>
          {wrapAtMost(proposalWords(change, units), width - 3, 2).map((line, row) => (
            <InkText key={line} look={look} ink="strong">
              {`${row === 0 ? `${index + 1}.` : '  '} ${line}`}
            </InkText>
          ))}
          {wrapAtMost(`${changeEvidence(change, units)} ${changeReason(change)}`, width - 3, 3).map(line => (
            <InkText key={line} look={look} ink="faint">{`   ${line}`}</InkText>
          ))}
        </Box>
      ))}
      <Box flexGrow={1} />
      {changes.length > 0 ? (
        <InkText look={look} ink="faint">
          {HINT_CAUTION}
        </InkText>
      ) : null}
    </Frame>
  );
};
