/** What every panel over the run has in common. */
import { Box } from 'ink';
import type { ReactNode } from 'react';
import type { Batch } from '../../core/batch/state.ts';
import type { Units } from '../../core/kitchen.ts';
import type { Telling } from '../../core/words/telling.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import type { Panel } from '../run-keys.ts';
import { InkText } from '../widgets/ink-text.tsx';

export interface PanelProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly batch: Batch;
  readonly telling: Telling;
  readonly units: Units;
  readonly panel: Panel;
}

interface SheetProps {
  readonly look: Look;
  readonly title: string;
  readonly children: ReactNode;
}
export const Sheet = ({ look, title, children }: SheetProps) => (
  <Box flexDirection="column">
    <InkText look={look} ink="accent">
      {title}
    </InkText>
    {children}
  </Box>
);
