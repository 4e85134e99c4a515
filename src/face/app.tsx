/** The full-screen program: its size, its help, and what all screens share. */
import { Box, useApp, useInput, useWindowSize } from 'ink';
import { useEffect, useMemo, useRef, useState } from 'react';
import { FRESH_GUARD, type Guard, WIPE_MS } from './key-guard.ts';
import type { Place } from './keymap.ts';
import { Screens, type ScreensProps } from './places.tsx';
import { LEAST, regionsFor } from './regions.ts';
import { HelpScreen } from './screens/help.tsx';
import { TooSmall } from './screens/too-small.tsx';
import { KeyGateContext } from './use-keys.ts';

export interface AppProps extends Omit<ScreensProps, 'regions'> {
  /** Stops the program, with the terminal given back, until it is continued; what Ctrl-Z does. */
  readonly stop?: () => Promise<void>;
  /** Tells when the terminal takes nothing any more, with a promise of the end of it; until then nothing is drawn. */
  readonly onStuck?: (tell: (free: Promise<void>) => void) => () => void;
}

/**
 * The whole program. On a terminal that is too small the screen is hidden and not taken down, so that it still
 * rings, and comes back as it was.
 */
export const App = ({ stop, onStuck, ...props }: AppProps) => {
  const { suspendTerminal } = useApp();
  const size = useWindowSize();
  const regions = regionsFor(size);
  const tooSmall = regions === 'too-small';
  // The Enter that started the program may still be held down, and would answer the first question. It is
  // long enough ago that another key is no wipe.
  const guard = useRef<Guard>({ ...FRESH_GUARD, last: 'enter', lastAt: props.services.steady() - WIPE_MS });
  const [helpOf, setHelpOf] = useState<readonly Place[] | null>(null);
  const covered = tooSmall || helpOf !== null;
  const gate = useMemo(() => ({ guard, muted: covered, help: setHelpOf }), [covered]);
  const helpGate = useMemo(() => ({ guard, muted: tooSmall, help: null }), [tooSmall]);
  // Somebody may have it already; then nothing is drawn either.
  useEffect(
    () => onStuck?.(free => void suspendTerminal(() => free).catch(() => undefined)),
    [onStuck, suspendTerminal],
  );
  useInput((text, key) => {
    if (stop && key.ctrl && text === 'z') void suspendTerminal(stop);
  });
  const least = regionsFor(LEAST);
  const shown = tooSmall ? least : regions;
  if (shown === 'too-small') return null;
  return (
    <KeyGateContext value={gate}>
      <Box width={size.columns} height={size.rows} overflow="hidden">
        {tooSmall ? <TooSmall look={props.look} /> : null}
        <Box display={covered ? 'none' : 'flex'}>
          <Screens {...props} regions={shown} />
        </Box>
        {helpOf && !tooSmall ? (
          <KeyGateContext value={helpGate}>
            <HelpScreen
              look={props.look}
              regions={shown}
              marks={props.services.marks}
              places={helpOf}
              steady={props.services.steady}
              onBack={() => setHelpOf(null)}
            />
          </KeyGateContext>
        ) : null}
      </Box>
    </KeyGateContext>
  );
};
