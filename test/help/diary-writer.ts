/** Writes entries into a diary one by one, as one of several programs at once. */
import { openDiary } from '../../src/shell/diary.ts';

const [path = '', name = '0', count = '1'] = process.argv.slice(2);
const diary = openDiary({ path, now: () => 1_800_000_000_000 });
for (let turn = 0; turn < Number(count); turn += 1) diary.add({ type: 'looked', bag: `2613a-${name}` });
