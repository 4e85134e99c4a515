/** What is said on a terminal that has no room for a screen. */
import { Box } from 'ink';
import type { Look } from '../look.ts';
import { LEAST } from '../regions.ts';
import { InkText } from '../widgets/ink-text.tsx';

export const TooSmall = ({ look }: { readonly look: Look }) => (
  <Box flexDirection="column">
    <InkText look={look} ink="strong">{`Too small: ${LEAST.columns} x ${LEAST.rows} is the least.`}</InkText>
    <InkText look={look}>The batch goes on. Ctrl-C twice leaves.</InkText>
  </Box>
);
