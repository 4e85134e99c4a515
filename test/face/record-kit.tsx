/** The screens after the batch over a record in memory: what is kept is seen at once. */
import { render } from 'ink-testing-library';
import { withDefaults } from '../../src/core/kitchen.ts';
import type { AfterServices } from '../../src/core/record/after.ts';
import { indexDiary } from '../../src/core/record/bags.ts';
import { culturesOf, type DiaryEntry, type DiaryEvent } from '../../src/core/record/diary.ts';
import { recordedBatch, recordOf } from '../../src/core/record/record.ts';
import type { Services } from '../../src/core/services.ts';
import { DAY } from '../../src/core/time.ts';
import { type RecordPlace, RecordPlaces } from '../../src/face/screens/record-places.tsx';
import type { DrivenBatch } from '../help/record-home.ts';
import { keyBytes, readScreen } from '../help/screen-text.ts';
import { plainLook, regions } from './sheet-kit.tsx';

export interface RecordStage {
  readonly services: Services;
  readonly after: AfterServices;
  readonly entries: DiaryEntry[];
  readonly saved: string[];
  /** Why nothing can be kept; null when it can. */
  trouble: string | null;
  steady: number;
}

export function recordStage(
  driven: readonly DrivenBatch[],
  now: number,
  start: readonly DiaryEvent[] = [],
): RecordStage {
  const entries: DiaryEntry[] = start.map((event, index) => ({
    id: `start-${index}`,
    wall: now - 10 * DAY + index,
    event,
  }));
  const batches = driven.map(({ batch }) => batch);
  const stage: RecordStage = {
    services: {} as Services,
    after: {} as AfterServices,
    entries,
    saved: [],
    trouble: null,
    steady: 0,
  };
  const after: AfterServices = {
    record: () => ({ batches: recordOf(batches, indexDiary(entries)), notices: [] }),
    batch: id => {
      const found = batches.find(batch => batch.header.id === id);
      return found ? recordedBatch(found, indexDiary(entries)) : null;
    },
    cultures: () => [...culturesOf(entries).values()],
    keep: (...events) => {
      if (stage.trouble) return stage.trouble;
      const added = events.map((event, index) => ({
        id: `kept-${entries.length + index}`,
        wall: now + entries.length,
        event,
      }));
      entries.push(...added);
      return added;
    },
    today: () => ({ start: now - DAY / 2, end: now + DAY / 2 }),
    makePage: (kind, id) => {
      stage.saved.push(`${kind} ${id}`);
      return Promise.resolve({
        path: `/here/${kind}-${id}.html`,
        says: `Written to /here/${kind}-${id}.html.`,
      });
    },
    openPage: path => {
      stage.saved.push(`open ${path}`);
      return Promise.resolve('Opened.');
    },
    saveNext: recorded => {
      stage.saved.push(recorded.id);
      return Promise.resolve('Saved as mine.yaml.');
    },
  };
  const services = {
    now: () => now,
    steady: () => stage.steady,
    kitchen: () => withDefaults({}),
    marks: [],
    after,
  } as unknown as Services;
  return Object.assign(stage, { services, after });
}

const drawn = (): Promise<void> => new Promise(resolve => setImmediate(resolve));

/** The screens after the batch, played on; what is put into `open` is unmounted by the test. */
export async function playRecord(
  place: RecordPlace,
  stage: RecordStage,
  open: { unmount: () => void }[],
  columns = 80,
  rows = 24,
) {
  let backs = 0;
  const shared = {
    look: plainLook,
    regions: regions(columns, rows),
    services: stage.services,
    after: stage.after,
  };
  const app = render(<RecordPlaces {...shared} place={place} onBack={() => (backs += 1)} />);
  Object.assign(app.stdout, { rows: 60 });
  open.push(app);
  await drawn();
  return {
    stage,
    backs: () => backs,
    screen: () => readScreen((app.lastFrame() ?? '').split('\n')),
    press: async (...keys: string[]) => {
      for (const key of keys) {
        stage.steady += 2000;
        app.stdin.write(keyBytes(key));
        await drawn();
        await drawn();
      }
    },
  };
}
