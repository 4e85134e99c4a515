/** Loaded before the program under test: writes down the most memory it had, in kilobytes. */
import { writeFileSync } from 'node:fs';

process.on('exit', () => {
  writeFileSync(process.env.STOVEHAND_RSS_FILE ?? '', String(process.resourceUsage().maxRSS));
});
