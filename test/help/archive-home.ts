import { readEntry } from '../../src/core/batch/entry.ts';
import { replay } from '../../src/core/batch/replay.ts';
import { indexDiary } from '../../src/core/record/bags.ts';
import { recordedBatch } from '../../src/core/record/record.ts';
import type { Settings, SettingsValues } from '../../src/core/ports.ts';
import { makeArchive } from '../../src/shell/archive.ts';
import { readBatchHeader } from '../../src/core/batch/header.ts';
import { openDiary } from '../../src/shell/diary.ts';
import type { FileLayer } from '../../src/shell/files.ts';
import { readJournal } from '../../src/shell/journal.ts';
import { memoryFiles } from './memory-files.ts';
import {
  diaryBytes,
  diaryOf,
  type DrivenBatch,
  drivenBatch,
  homeHeader,
  journalBytes,
} from './record-home.ts';

export type Disk = ReturnType<typeof memoryFiles>;
export const NOW = Date.UTC(2026, 10, 25, 12);
const EMPTY: SettingsValues = { kitchen: {}, lastRecipe: '', lessonOffered: false, kitchenAsked: false };

export function settingsOf(start: Partial<SettingsValues> = {}): Settings {
  let values = { ...EMPTY, ...start };
  return {
    get values() {
      return values;
    },
    notices: [],
    save: async change => {
      values = { ...values, ...change };
    },
  };
}

/** A home in memory, with what an archive needs to know of it. */
export function home(disk: Disk = memoryFiles(), settings = settingsOf()) {
  const files: FileLayer = disk;
  const place = {
    batches: '/h/batches',
    recipes: '/h/recipes',
    settings: '/h/settings.json',
    diary: '/h/diary.journal',
    files,
  };
  const diaryStore = openDiary({ path: place.diary, now: () => NOW, files });
  return { disk, ...place, diaryStore, settingsStore: settings };
}
export type Home = ReturnType<typeof home>;

export function fill(
  at: Home,
  batches: readonly DrivenBatch[],
  entries: ReturnType<typeof diaryOf> = [],
): Home {
  for (const { header, events } of batches)
    at.disk.put(`/h/batches/${header.id}.batch`, journalBytes(header, events));
  if (entries.length > 0) at.disk.put('/h/diary.journal', diaryBytes(entries));
  return at;
}

/** Everything a person would see of the record: batches as replayed, with their bags. */
export function recordIn({ disk, diaryStore }: Home) {
  const diary = indexDiary(diaryStore.read().entries);
  return disk
    .list('/h/batches')
    .filter(name => name.endsWith('.batch'))
    .sort()
    .map(name => {
      const { header, entries } = readJournal(`/h/batches/${name}`, readEntry, disk);
      const known = readBatchHeader(header);
      if (!known) throw new Error(`${name} is no batch`);
      return recordedBatch(
        replay(
          known,
          entries.map(({ event }) => event),
        ).run.batch,
        diary,
      );
    });
}

export const some = (id: string, ...loads: number[]) =>
  drivenBatch(homeHeader(id, { soak: false, loads: loads.length > 0 ? loads : [2] }));
export const lost = diaryOf([{ type: 'state', bag: '2613a-1', state: 'contaminated', looks: 'green' }]);
export const bytesOf = async (from: Home) => (await makeArchive(from, NOW)).bytes;
