/** The run screen over a batch that stands still: session, services and alerts faked. */
import { renderToString } from 'ink';
import type { Batch } from '../../src/core/batch/state.ts';
import { withDefaults } from '../../src/core/kitchen.ts';
import type { Services } from '../../src/core/services.ts';
import type { Session } from '../../src/core/session.ts';
import { tellingOf } from '../../src/face/format.ts';
import { type Look, lookFor } from '../../src/face/look.ts';
import { type Regions, regionsFor } from '../../src/face/regions.ts';
import type { Panel } from '../../src/face/run-keys.ts';
import { PanelScreen } from '../../src/face/screens/panels.tsx';
import { RunController } from '../../src/face/screens/run-controller.tsx';

export const plainLook: Look = lookFor({ colour: 'none', ascii: false });
export const asciiLook: Look = lookFor({ colour: 'none', ascii: true });

export const SIZES = [
  [60, 18],
  [80, 24],
  [120, 40],
  [160, 50],
] as const;

export function regions(columns: number, rows: number): Regions {
  const found = regionsFor({ columns, rows });
  if (found === 'too-small') throw new Error(`${columns}x${rows} is too small`);
  return found;
}

const nothing = () => {};

/** The whole screen, line by line. */
export function screenOf(batch: Batch, columns: number, rows: number, look = plainLook): readonly string[] {
  const session: Session = {
    run: { batch, past: [batch] },
    role: 'running',
    notices: [],
    trouble: null,
    path: '',
    subscribe: () => nothing,
    send: () => null,
    close: nothing,
  };
  const services = {
    now: () => batch.wall,
    steady: () => 0,
    kitchen: () => withDefaults({ ...batch.header.kitchen }),
    alerter: { raise: nothing, answered: nothing, show: nothing, wish: nothing, close: nothing },
    marks: [],
  } as unknown as Services;
  return renderToString(
    <RunController
      look={look}
      regions={regions(columns, rows)}
      session={session}
      services={services}
      onLeave={nothing}
    />,
    { columns },
  )
    .split('\n')
    .map(line => line.trimEnd());
}

/** A panel over the run, line by line. */
export function panelOf(
  batch: Batch,
  panel: Panel,
  columns = 80,
  rows = 24,
  look = plainLook,
): readonly string[] {
  const { units } = batch.header.kitchen;
  const { body } = regions(columns, rows);
  return renderToString(
    <PanelScreen
      look={look}
      regions={regions(columns, rows)}
      batch={batch}
      telling={tellingOf(batch, units)}
      units={units}
      panel={panel}
    />,
    { columns: body.width },
  )
    .split('\n')
    .map(line => line.trimEnd());
}
