/** Loaded before the program under test: its clocks show what a file says on top of the truth, read at every look. */
import { readFileSync } from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import os from 'node:os';

const file = process.env.STOVEHAND_SHIFT_FILE ?? '';
function shift(key) {
  try {
    return Number(JSON.parse(readFileSync(file, 'utf8'))[key] ?? 0);
  } catch {
    return 0;
  }
}
const now = Date.now.bind(Date);
Date.now = () => now() + shift('wall');
const uptime = os.uptime;
os.uptime = () => uptime() + shift('uptime') / 1000;
syncBuiltinESMExports();
