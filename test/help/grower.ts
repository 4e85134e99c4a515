/**
 * Drives a story in the words of the person at the stove, by what stands on the screen and nothing else: it
 * reads the live answers, waits for what a careful person waits for, and presses the key that is shown. The
 * same words drive the built program in a terminal and the face in this process.
 */
import { meets, type Probe, type ScreenText, type Stage } from './screen-text.ts';

interface Plan {
  /** The answer as the key line shows it; this is how a question is recognised. */
  readonly answer: string | RegExp;
  readonly key: string;
  /** What has to stand on the screen before the answer is given; left out: at once. */
  readonly when?: (screen: ScreenText) => boolean;
}

const without =
  (text: string) =>
  (screen: ScreenText): boolean =>
    !screen.text.includes(text);
const having =
  (text: string) =>
  (screen: ScreenText): boolean =>
    screen.text.includes(text);

/** A whole batch as planned: Space and 1 to 4, and nothing else. */
const AS_PLANNED: readonly Plan[] = [
  { answer: 'Space all there', key: 'space' },
  { answer: 'Space weighed, water on', key: 'space' },
  { answer: 'Space soaked, go on', key: 'space', when: without('until it may end') },
  { answer: 'Space it simmers', key: 'space' },
  { answer: 'Space kernels are cut', key: 'space', when: having('time to look') },
  { answer: '3 translucent through', key: '3' },
  { answer: /1 none.*3 many/, key: '1' },
  { answer: 'Space drained and spread', key: 'space' },
  { answer: '1 towel is laid', key: '1' },
  { answer: '3 one or two faint', key: '3', when: having('lift it') },
  { answer: /Space .*2 grain used up/, key: 'space' },
  { answer: 'Space sealed, port in', key: 'space' },
  { answer: /Space [\d.]+ (L|qt)/, key: 'space' },
  { answer: 'Space lid is on', key: 'space' },
  { answer: '2 steady jet', key: '2' },
  { answer: 'Space valve is shut', key: 'space', when: having('vented') },
  { answer: '2 at target', key: '2' },
  { answer: 'Space flame is off', key: 'space' },
  { answer: '1 at zero', key: '1', when: without('locked: pressure') },
  { answer: '2 pin down, no hiss', key: '2', when: without('locked: pressure') },
  { answer: 'Space lid is open', key: 'space', when: without('shut to cool') },
  { answer: /1 whole.*2 damaged/, key: '1' },
  { answer: '2 like the room', key: '2' },
  { answer: 'Space clean and dry', key: 'space' },
  { answer: /Space .*2 leave it out/, key: 'space' },
];

const shows = (screen: ScreenText, answer: string | RegExp): boolean =>
  typeof answer === 'string' ? screen.answers.includes(answer) : answer.test(screen.answers);

/** What only changes when an answer was taken: title, instruction, answers; no caution, no drawing, no clock. */
export function question(screen: ScreenText): string {
  const words = screen.body.slice(0, 5).map(line => line.replace(/^.*│/, ''));
  const end = words.findIndex(
    (line, index) =>
      index > 0 && (/^\s*(!|$)/.test(line) || !/^[ -~°…]*$/.test(line) || /\d:\d\d/.test(line)),
  );
  return [...words.slice(0, end < 0 ? 3 : end), screen.answers].join('\n');
}

/** A busy machine took the key for a towel on the keyboard: it is pressed again. */
const wasDropped = (screen: ScreenText): boolean => /doubled key|Several keys/.test(screen.notice);

export class Grower {
  readonly stage: Stage;
  readonly keys: string[] = [];
  constructor(stage: Stage) {
    this.stage = stage;
  }

  get screen(): ScreenText {
    return this.stage.screen();
  }
  /** Waits for it. */
  sees(probe: Probe, what?: string): Promise<ScreenText> {
    return this.stage.until(probe, what);
  }
  /** Presses a key and waits for what it does; once more when it was dropped. */
  async presses(key: string, then?: Probe): Promise<ScreenText> {
    // What is said of an earlier key says nothing of this one.
    const isSaid = wasDropped(this.screen);
    this.keys.push(key);
    await this.stage.press(key);
    if (then === undefined) return this.screen;
    const seen = await this.sees(
      screen => meets(screen, then) || (!isSaid && wasDropped(screen)),
      String(then),
    );
    return meets(seen, then) ? seen : this.presses(key, then);
  }

  /** From home: down to the recipe of that name, its sheet, and the first step. */
  async begins(recipe: string): Promise<void> {
    await this.sees(recipe);
    const picked = (screen: ScreenText) =>
      screen.body.some(line => line.includes('›') && line.includes(recipe));
    while (!picked(this.screen)) {
      const before = this.screen.text;
      await this.presses('down', screen => screen.text !== before);
    }
    await this.presses('enter', 'begin this batch');
    await this.presses('space', 'all there');
  }

  /** One question answered as planned, or waited out; then the next one is on the screen. */
  async goesOn(): Promise<void> {
    const known = (screen: ScreenText) => AS_PLANNED.some(plan => shows(screen, plan.answer));
    const seen = await this.sees(known, 'a question of the plan');
    const plan = AS_PLANNED.find(entry => shows(seen, entry.answer));
    if (!plan) return;
    const before = question(seen);
    const over = (screen: ScreenText) => question(screen) !== before;
    // The coach itself ends the hold; until then there is nothing to do but keep the gauge at target.
    if (plan.answer === '2 at target' && /^\s*Hold/.test(seen.body[0] ?? '')) {
      await this.holds(over);
      return;
    }
    const { when } = plan;
    if (when) await this.sees(screen => when(screen) || over(screen), `the time for: ${plan.answer}`);
    if (over(this.screen)) return;
    await this.presses(plan.key, screen => over(screen) || wasDropped(screen));
  }

  /** Answers "at target" where the coach asks, and waits for the hold to end. */
  private async holds(over: (screen: ScreenText) => boolean): Promise<void> {
    const asked = (screen: ScreenText) => /What does the gauge show now|No time counts/.test(screen.text);
    const seen = await this.sees(screen => over(screen) || asked(screen), 'the end of the hold');
    if (!over(seen)) await this.presses('2', screen => !asked(screen) || wasDropped(screen));
  }

  /** As planned until a title, a question or anything else stands there. */
  async goesOnUntil(probe: (screen: ScreenText) => boolean, what: string): Promise<ScreenText> {
    for (let answers = 0; !probe(this.screen); answers += 1) {
      if (answers > 120) throw new Error(`Never came to ${what}:\n${this.screen.text}`);
      await this.goesOn();
    }
    return this.screen;
  }
  /** As planned to a step, by its title. */
  to(title: string): Promise<ScreenText> {
    return this.goesOnUntil(screen => titleOf(screen).startsWith(title), title);
  }
  /** Leaves by the keys that the screen shows. */
  async leaves(): Promise<void> {
    await this.presses('q', 'Leave the coach?');
    await this.stage.press('esc');
    await this.sees(screen => !screen.text.includes('Leave the coach?'));
    await this.presses('q', 'Leave the coach?');
    await this.stage.press('q');
  }
}

/** Title of the step on the screen. */
export const titleOf = (screen: ScreenText): string => (screen.body[0] ?? '').replace(/^.*│/, '').trim();
