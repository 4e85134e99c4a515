import { renderToString } from 'ink';
import { describe, expect, it } from 'vitest';
import { CountView } from '../../src/face/widgets/count-view.tsx';
import { sheetLine, columnsFor } from '../../src/face/sheet-text.ts';
import { rowText } from '../../src/face/spans.ts';
import { plainLook } from './sheet-kit.tsx';

const HOUR_MS = 3_600_000;

function shown(ms: number, captions: readonly string[], width: number, height: number): string {
  const count = {
    of: 'soak',
    ms,
    totalMs: 24 * HOUR_MS,
    direction: 'down',
    running: true,
    until: null,
  } as const;
  return renderToString(
    <CountView
      look={plainLook}
      count={count}
      captions={captions}
      width={width}
      height={height}
      ink="strong"
    />,
    { columns: width },
  );
}

describe('the number and what stands beside it', () => {
  it.each([30, 36, 44, 58])('in %i columns no caption loses its end', width => {
    for (const ms of [1000, 11 * 60_000, 11 * HOUR_MS, 23 * HOUR_MS])
      for (const height of [1, 3, 5]) {
        const captions = ['until it may end', 'until Thu 06:45'];
        const text = shown(ms, captions, width, height).replaceAll(/\s+/g, ' ');
        expect(text).not.toContain('…');
        for (const word of captions.join(' ').split(' ')) expect(text).toContain(word);
      }
  });
});

it('the sign of what is assumed does not stick to a value as wide as its column', () => {
  const line = { label: 'cooker', value: '3 loads, 5+5+4', more: ['room for 6 bags'], assumed: true };
  expect(rowText(sheetLine(line, columnsFor(78), plainLook))).toMatch(/5\+5\+4 \? room for 6 bags/);
});
