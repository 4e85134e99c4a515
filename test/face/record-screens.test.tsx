import fc from 'fast-check';
import { renderToString } from 'ink';
import { afterEach, describe, expect, it } from 'vitest';
import { BatchesScreen } from '../../src/face/screens/batches.tsx';
import { intervalBar } from '../../src/face/screens/record.tsx';
import { type RecordPlace, RecordPlaces } from '../../src/face/screens/record-places.tsx';
import { rateOf } from '../../src/core/record/rates.ts';
import { rowText } from '../../src/face/spans.ts';
import type { Services } from '../../src/core/services.ts';
import { DAY } from '../../src/core/time.ts';
import { BEGAN_WALL } from '../help/batch-kit.ts';
import { someBatch, someDiary } from '../help/record-history.ts';
import { type DrivenBatch, drivenBatch, homeHeader } from '../help/record-home.ts';
import { playRecord, recordStage, type RecordStage } from './record-kit.tsx';
import { asciiLook, plainLook, regions } from './sheet-kit.tsx';

const whole = drivenBatch(homeHeader('2613a', { soak: false, loads: [3] }));
const dipped = drivenBatch(homeHeader('2614a', { jars: true, loads: [2] }), drive =>
  drive.to('vent').answer('stopped'),
);
const NOW = BEGAN_WALL + 9 * DAY;
const open: { unmount: () => void }[] = [];
afterEach(() => {
  for (const app of open.splice(0)) app.unmount();
});
const play = (
  place: RecordPlace,
  stage: RecordStage = recordStage([whole, dipped], NOW),
  columns = 80,
  rows = 24,
) => playRecord(place, stage, open, columns, rows);

describe('due, record, compare, next time', () => {
  it('due lists what is wanted today and walks those bags', async () => {
    const { screen, press } = await play({ at: 'due' });
    expect(screen().text).toContain('shake · 2613a oyster · bags 1, 2, 3');
    await press('space');
    expect(screen().head).toContain('1 of 3');
  });

  it('rates by number keys, loss and cost by Space', async () => {
    const stage = recordStage([whole, dipped], NOW, [
      { type: 'state', bag: '2613a-1', state: 'done', looks: null },
      { type: 'state', bag: '2613a-2', state: 'contaminated', looks: 'green' },
    ]);
    const { screen, press } = await play({ at: 'record' }, stage);
    expect(screen().text).toMatch(/rye .*\n.*1 of 2 good: too few to tell/);
    await press('2');
    expect(screen().text).toContain('bag of 1 kg');
    await press('space');
    expect(screen().text).toContain('Expected loss: too few to tell (1 of 2 bags lost: between 9 and 91 %)');
  });

  it('compare marks what differs, Space hides the rest', async () => {
    const { screen, press } = await play({ at: 'compare', left: '2613a', right: '2614a' });
    expect(screen().text).toContain('cooker water');
    await press('space');
    expect(screen().text).not.toContain('cooker water');
    expect(screen().text).toMatch(/› grain +rye +sorghum/);
  });

  it('compare tells long names whole, what was given, and where nothing ever can become spawn', async () => {
    const name = 'Rye berries in three one kilogram bags (after 2613a)';
    const base = homeHeader('2616a', { soak: false, loads: [2] });
    const torn = drivenBatch({ ...base, recipe: { ...base.recipe, name } }, drive =>
      drive.toAsk('lifted').answers('torn', 'torn'),
    );
    const given = [
      { type: 'culture', key: 'king-1', species: 'king oyster', source: '', form: 'grain spawn', made: '' },
      { type: 'inoculated', bag: '2613a-1', culture: 'king-1', dose: null },
    ] as const;
    for (const columns of [60, 80]) {
      const stage = recordStage([whole, torn], NOW, given);
      const { screen } = await play({ at: 'compare', left: '2613a', right: '2616a' }, stage, columns, 50);
      const text = screen().text.replace(/[\s›]+/g, ' ');
      for (const word of name.split(' ')) expect(text).toContain(word);
      expect(text).toContain('king-1, grain');
      expect(text).toMatch(/none given/);
      expect(text).toMatch(/not known yet nothing/);
      expect(text).not.toContain('…');
    }
  });

  it('loss and cost names what no rate counts, and where prices belong', async () => {
    const torn = drivenBatch(homeHeader('2615a', { soak: false, loads: [2] }), drive =>
      drive.toAsk('lifted').answer('torn'),
    );
    const { screen, press } = await play({ at: 'record' }, recordStage([whole, torn], NOW));
    await press('space');
    const said = screen().text.replace(/\s+/g, ' ');
    expect(said).toContain('in no rate: 1 torn');
    expect(said).toContain('go into the kitchen');
  });

  it('one key takes the changes into a recipe, once', async () => {
    const { stage, screen, press } = await play({ at: 'next', batch: '2614a' });
    expect(screen().text).toContain('Vent for 12 min instead of 10 min.');
    expect(screen().text).toContain('The steam broke off once');
    await press('space', 'space');
    expect(stage.saved).toEqual(['2614a']);
    expect(screen().notice).toBe('Saved as mine.yaml.');
  });

  it('q goes back from everywhere', async () => {
    for (const place of [
      { at: 'due' },
      { at: 'record' },
      { at: 'bags', batch: null },
      { at: 'next', batch: '2614a' },
    ] as const) {
      const { backs, press } = await play(place);
      await press('q');
      expect(backs()).toBe(1);
    }
  });
});

it.each([60, 80])('the list of bags cuts nothing and keeps its columns at %i columns', async columns => {
  const stage = recordStage([whole], NOW, [
    { type: 'state', bag: '2613a-2', state: 'contaminated', looks: 'sour' },
    { type: 'state', bag: '2613a-3', state: 'contaminated', looks: 'green' },
  ]);
  const { screen } = await play({ at: 'bags', batch: '2613a' }, stage, columns, 24);
  expect(screen().head).toContain('3 bags');
  const rows = screen()
    .text.split('\n')
    .filter(line => line.includes('2613a-'));
  expect(rows).toHaveLength(3);
  expect(rows.join('')).not.toContain('…');
  expect(new Set(rows.map(row => row.indexOf('oyster'))).size).toBe(1);
});

describe('the list of batches', () => {
  it.each([60, 80])(
    'tells what became of each bag whole at %i columns, and the picked name whole',
    columns => {
      const name = 'Rye berries in four one kilogram bags (after 2613a)';
      const base = homeHeader('2617a', { soak: false, loads: [4] });
      const long = drivenBatch({ ...base, recipe: { ...base.recipe, name } }, drive => {
        drive.to('vent').answer('stopped');
        drive.toAsk('lifted').answer('torn');
      });
      const stage = recordStage([long], NOW, [
        { type: 'state', bag: '2617a-2', state: 'contaminated', looks: 'green' },
        { type: 'state', bag: '2617a-3', state: 'done', looks: null },
      ]);
      const services = {
        ...stage.services,
        batches: () => [{ id: '2617a', batch: long.batch, says: [] }],
      } as unknown as Services;
      const nothing = () => undefined;
      const text = renderToString(
        <BatchesScreen
          look={plainLook}
          regions={regions(columns, 24)}
          services={services}
          onOpen={nothing}
          onAfter={nothing}
          onBack={nothing}
        />,
        { columns },
      );
      expect(text).toMatch(/2617a .*1 good, 1 lost, 1 open, 1 torn *\n/);
      const said = text.replace(/\s+/g, ' ');
      expect(said).toContain(`${name}: 1 became spawn, 1 was lost, 1 still grows, 1 was torn, 2 deviations`);
    },
  );
});

describe('frames', () => {
  const places: readonly RecordPlace[] = [
    { at: 'due' },
    { at: 'record' },
    { at: 'bags', batch: '2613a' },
    { at: 'bags', batch: null },
    { at: 'next', batch: '2613a' },
    { at: 'compare', left: '2613a', right: '2614a' },
  ];

  it('never leave the terminal, whatever the record holds', () => {
    fc.assert(
      fc.property(
        someBatch('2613a'),
        someDiary('2613a'),
        fc.constantFrom(...places),
        fc.constantFrom([60, 18], [80, 24], [160, 50]),
        fc.boolean(),
        (driven: DrivenBatch, entries, place, [columns = 80, rows = 24], ascii) => {
          const stage = recordStage(
            [driven, dipped],
            driven.header.beganWall + 9 * DAY,
            entries.map(({ event }) => event).filter(({ type }) => type !== 'taken-back'),
          );
          const look = ascii ? asciiLook : plainLook;
          const shared = {
            look,
            regions: regions(columns, rows),
            services: stage.services,
            after: stage.after,
          };
          const lines = renderToString(<RecordPlaces {...shared} place={place} onBack={() => undefined} />, {
            columns,
          }).split('\n');
          expect(lines.length).toBeLessThanOrEqual(rows);
          for (const line of lines) expect([...line].length).toBeLessThanOrEqual(columns);
          expect(lines.join('\n')).not.toMatch(/NaN|undefined|[\u0000-\u0009\u000b-\u001f\u007f]/);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('the bar spans the interval of wilson.csv: 6 of 32 from 9 to 35 % (READ)', () => {
    const text = rowText(intervalBar(rateOf('', 6, 32), 100, false));
    expect([...text].indexOf('━')).toBe(8);
    expect([...text].lastIndexOf('━')).toBe(35);
    expect([...text].indexOf('●')).toBe(18);
    expect(rowText(intervalBar(rateOf('', 0, 0), 10, true))).toBe('..........');
  });
});
