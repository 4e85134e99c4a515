import { describe, expect, it } from 'vitest';
import type { Run } from '../../src/core/batch/state.ts';
import type { DiaryEvent } from '../../src/core/record/diary.ts';
import { DAY } from '../../src/core/time.ts';
import { doneTitle, doneWords, endText } from '../../src/core/words/done.ts';
import { indexDiary } from '../../src/core/record/bags.ts';
import { recordedBatch } from '../../src/core/record/record.ts';
import { Drive } from '../help/batch-drive.ts';
import { handSession } from '../help/hand-session.ts';
import { mountApp } from '../help/mount.tsx';
import { diaryOf, homeHeader } from '../help/record-home.ts';
import { handServices } from '../help/services.ts';
import { recordStage } from './record-kit.tsx';

const header = homeHeader('2613a', { soak: false, loads: [3] });
const whole = (): Run => new Drive(header).to('done').run;
const aborted = (): Run =>
  new Drive(header)
    .to('climb')
    .type('end-batch')
    .until(({ finishedAt }) => finishedAt !== null).run;
const dry = (): Run =>
  new Drive(header)
    .to('hold')
    .trouble('water-low')
    .until(({ finishedAt }) => finishedAt !== null).run;
const allTorn = (): Run => new Drive(header).toAsk('lifted').answers('torn', 'torn', 'torn').run;
const leftOut = (): Run =>
  new Drive(header).toAsk('lifted').answer('torn').toAsk('inject').answers('left-out', 'left-out').run;

async function mounted(run: Run, columns = 80, rows = 24, start: readonly DiaryEvent[] = []) {
  const { batch } = run;
  const stage = recordStage([{ header: batch.header, events: [], batch }], batch.wall + 12 * DAY, start);
  const services = handServices({ open: () => handSession(run) });
  const withRecord = Object.assign(services, { after: stage.after });
  const session = handSession(run);
  const app = await mountApp({ screen: 'run', session }, { columns, rows, services: withRecord });
  return { app, stage, session };
}
const state = (bag: string, to: 'done' | 'contaminated'): DiaryEvent => ({
  type: 'state',
  bag,
  state: to,
  looks: null,
});
const page = (lines: readonly string[]): string =>
  `${lines
    .map(line => line.trimEnd())
    .join('\n')
    .trimEnd()}\n`;

describe('the end of a batch', () => {
  it.each([
    [80, 24],
    [60, 18],
  ] as const)('shows every way on with its key at %ix%i', async (columns, rows) => {
    const { app } = await mounted(whole(), columns, rows);
    const { text } = await app.until('under way');
    for (const [key, what] of [
      ['g', 'bags'],
      ['l', 'labels'],
      ['c', 'calendar'],
      ['p', 'page'],
      ['n', 'next time'],
      ['r', 'record'],
      ['s', 'recipe'],
    ])
      expect(text).toMatch(new RegExp(` ${key}  .*${what}`));
    await expect(page(app.lines())).toMatchFileSnapshot(`frames/run/done-ways-${columns}x${rows}.txt`);
  });

  it('leads to bags, next time and record, and back to where one was', async () => {
    const { app, session } = await mounted(whole());
    for (const [key, seen] of [
      ['g', 'Bags of 2613a'],
      ['n', 'Next time, after 2613a'],
      ['r', 'Record'],
    ] as const) {
      await app.until('under way');
      await app.press(key);
      await app.until(seen);
      await app.press('q');
    }
    await app.until('under way');
    expect(session.closed).toBe(true);
  });

  it('writes labels, card and calendar, says where, and opens the page on request', async () => {
    const { app, stage } = await mounted(whole());
    await app.until('under way');
    await app.press('o');
    await app.until('Nothing was written yet');
    await app.press('l');
    await app.until('/here/labels-2613a.html');
    await app.press('o');
    await app.until('Opened.');
    await app.press('c');
    await app.until('/here/calendar-2613a.html');
    await app.press('p');
    await app.until('/here/card-2613a.html');
    await app.press('o');
    await app.press('s');
    await app.until('Saved as mine.yaml.');
    expect(stage.saved).toEqual([
      'labels 2613a',
      'open /here/labels-2613a.html',
      'calendar 2613a',
      'card 2613a',
      'open /here/card-2613a.html',
    ]);
  });

  it('keys of the end do nothing while a batch runs', async () => {
    const { app, stage } = await mounted(new Drive(header).to('climb').run);
    await app.until('Climb');
    for (const key of ['g', 'l', 'c', 'r', 's', 'o']) await app.press(key);
    expect(stage.saved).toEqual([]);
    expect(app.screen().text).toContain('Climb');
  });

  it('what was aborted is not called done', async () => {
    const { app } = await mounted(aborted());
    const { text, head } = await app.until('Ended early');
    expect(`${head}\n${text}`).not.toMatch(/\bdone\b/i);
    expect(text).not.toContain('under way');
    await expect(page(app.lines())).toMatchFileSnapshot('frames/run/done-aborted-80x24.txt');
    expect(app.services.outward.at(-1)?.title).toBe('Ended early');
  });

  it('weeks later it says what became of them', async () => {
    const { app } = await mounted(whole(), 80, 24, [
      state('2613a-1', 'done'),
      state('2613a-2', 'contaminated'),
    ]);
    await app.until('Of 3 bags 1 became spawn, 1 was lost, 1 still grows.');
  });
});

describe('the beginning of the next one', () => {
  it('says what the last one left in the note', async () => {
    const note = 'Rinse it well.\nNext time: Pour 3 L of water into the cooker instead of 2.5 L.';
    const next = { ...header, recipe: { ...header.recipe, note } };
    const { app } = await mounted(new Drive(next).run, 60, 18);
    const { text } = await app.until('From last time: Pour 3 L of water');
    expect(text).not.toContain('Rinse it well');
  });

  it.each([
    [60, 18],
    [80, 24],
    [160, 50],
  ])('says it again at the step it is about, and only there, at %i x %i', async (columns, rows) => {
    const note = [
      'Next time (hold): Be there when the hold ends after 90 min, and turn the heat off.',
      'Next time (inoculate): Flame the needle before every bag.',
    ].join('\n');
    const next = { ...header, recipe: { ...header.recipe, note } };
    for (const [step, wanted, other] of [
      ['hold', 'Be there when', 'Flame the'],
      ['inoculate', 'Flame the needle', 'Be there'],
    ] as const) {
      const { app } = await mounted(new Drive(next).to(step).run, columns, rows);
      const { text } = await app.until(`From last time: ${wanted}`);
      expect(text).not.toContain(other);
      // The caution of the step stays beside it.
      expect(text).toMatch(step === 'hold' ? /Never leave a cooker|Hold/ : /Alcohol and flame/);
    }
    const { app } = await mounted(new Drive(next).to('cool').run, columns, rows);
    expect((await app.until('Cool')).text).not.toContain('From last time');
  });
});

describe('before the first bag is given its culture', () => {
  it.each([
    ['liquid culture', 'Shake the syringe. Flame the needle red'],
    ['grain spawn', 'Break the spawn up in its own bag first'],
  ] as const)('the order of clean work with %s stands there, whole sentences only', async (form, work) => {
    const recipe = { ...header.recipe, culture: { ...header.recipe.culture, form } };
    for (const [columns, rows] of [
      [60, 18],
      [80, 24],
    ] as const) {
      const { app } = await mounted(new Drive({ ...header, recipe }).toAsk('clean').run, columns, rows);
      const { text } = await app.until('Still air: windows shut');
      const said = text.replace(/\s+/g, ' ');
      expect(said).toContain('must be dry before there is any flame; never spray towards one.');
      if (columns === 80) expect(said).toContain(work);
      expect(text).not.toContain('…');
    }
  });
});

describe('titles, sentences and rows tell the truth', () => {
  it.each([
    ['whole', whole, 'Done', '3 bags under way. Label them', '3 still grow'],
    [
      'aborted',
      aborted,
      'Ended early',
      'You ended it before its last step. Nothing was inoculated',
      'ended early',
    ],
    ['out of water', dry, 'Ended early', 'Ended for want of water.', 'ended early'],
    [
      'all torn',
      allTorn,
      'Nothing inoculated',
      'No bag was inoculated: 3 bags were torn.',
      'nothing inoculated',
    ],
    [
      'left out',
      leftOut,
      'Nothing inoculated',
      'No bag was inoculated: 1 bag was torn, 2 bags were left out.',
      'nothing inoculated',
    ],
  ] as const)('%s', (_name, run, title, sentence, row) => {
    const { batch } = run();
    const { bags } = recordedBatch(batch, indexDiary(diaryOf([])));
    expect(doneTitle(batch)).toBe(title);
    expect(doneWords(batch, bags)).toContain(sentence);
    expect(doneWords(batch, null)).toContain(sentence);
    expect(endText(batch, bags)).toBe(row);
    expect(`${doneWords(batch, null)}${endText(batch, null)}`).not.toMatch(/\b0 /);
  });
});
