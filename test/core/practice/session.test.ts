import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { execFileSync } from 'node:child_process';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { wantedNow } from '../../../src/core/batch/wanted.ts';
import type { FaultId } from '../../../src/core/practice/faults.ts';
import type { PracticeNote, PracticeSession, PracticeWish } from '../../../src/core/practice/session.ts';
import { keepProgress, readProgress } from '../../../src/shell/practice-progress.ts';
import { BEAT_MS, startPractice } from '../../../src/shell/practice-session.ts';
import { MISTAKE_WORDS } from '../../../src/core/words/practice.ts';
import { practiceOf } from '../../help/practice-kit.ts';
import { PROGRAM } from '../../help/pty.ts';

/** A practice whose real time is driven by hand. */
function driven(wish: PracticeWish = {}, speed: 1 | 5 | 60 | 240 = 60, faults: readonly FaultId[] = []) {
  let now = 0;
  let beat = () => {};
  const session: PracticeSession = startPractice({
    practice: practiceOf(42, faults, { soak: wish.auto !== true, loads: [1] }),
    wish,
    speed,
    steady: () => now,
    every: (_, work) => {
      beat = work;
      return () => {
        beat = () => {};
      };
    },
    mistakes: [],
  });
  const live = (ms: number) => {
    for (let passed = 0; passed < ms; passed += BEAT_MS) {
      now += BEAT_MS;
      beat();
    }
  };
  const sleepMs = (ms: number) => {
    now += ms;
    beat();
  };
  return { session, live, sleepMs };
}

const toSoak = ({ session }: ReturnType<typeof driven>) => {
  session.send({ type: 'answer', ask: 'gear-check', choice: 'ready' });
  session.send({ type: 'answer', ask: 'dry-weight', choice: 'as-planned' });
};

describe('a practice on a real clock', () => {
  it('runs at the chosen speed, and at 5x while an answer is wanted', () => {
    const practice = driven({}, 60);
    practice.live(2000);
    expect(practice.session.second).toBe(10);
    expect(practice.session.pace).toBe(5);
    toSoak(practice);
    practice.live(10_000);
    expect(practice.session.second).toBe(610);
    expect(practice.session.pace).toBe(60);
  });

  it('goes on at full speed when it is hurried, until the next answer', () => {
    const practice = driven({}, 60);
    practice.session.faster();
    expect(practice.session.pace).toBe(60);
    expect(practice.session.speed).toBe(60);
    practice.session.send({ type: 'answer', ask: 'gear-check', choice: 'ready' });
    expect(practice.session.pace).toBe(5);
  });

  it('is hurried from 5x to 60x and from there to more, so that no jet is over in a blink', () => {
    const { session } = driven({}, 240);
    const paces = [session.pace];
    for (let press = 0; press < 3; press += 1) {
      session.faster();
      paces.push(session.pace);
    }
    expect(paces).toEqual([5, 60, 240, 1]);
  });

  it('slows down again when something else is wanted, however far it was hurried before', () => {
    const practice = driven({}, 240);
    const { session } = practice;
    toSoak(practice);
    session.sleep();
    practice.live(BEAT_MS);
    session.faster();
    session.faster();
    practice.live(BEAT_MS);
    expect(session.pace).toBe(240);
    // The soak may end now; much later it is over, which is another thing to say.
    for (let turn = 0; turn < 3000 && session.pace === 240; turn += 1) practice.live(BEAT_MS);
    expect(wantedNow(session.run.batch)?.code).toBe('soak-latest');
    expect(session.pace).toBe(5);
  });

  it('slows down for what is heard, says it long enough to be read, and can be hurried on again', () => {
    const practice = driven({}, 240, ['starch-foam']);
    const { session } = practice;
    toSoak(practice);
    session.sleep();
    session.send({ type: 'answer', ask: 'soaking', choice: 'soaked' });
    // Nobody looks at the pot: it stands on full flame, as fast as it goes.
    for (let turn = 0; turn < 900 && session.heard === null; turn += 1) {
      if (session.pace < 240) session.faster();
      practice.live(BEAT_MS);
    }
    expect(session.heard?.code).toBe('boils-over');
    expect(session.pace).toBe(5);
    session.faster();
    session.faster();
    expect(session.pace).toBe(240);
    // Four minutes of the kitchen are over in a second, and it is still to be read.
    practice.live(2000);
    expect(session.heard?.code).toBe('boils-over');
  });

  it('pauses with a computer that sleeps', () => {
    const practice = driven({}, 1);
    toSoak(practice);
    practice.sleepMs(3_600_000);
    expect(practice.session.second).toBe(1);
  });

  it('jumps to the next thing wanted only where a person may sleep', () => {
    const practice = driven({}, 1);
    expect(practice.session.sleep()).toBe(false);
    toSoak(practice);
    expect(practice.session.sleep()).toBe(true);
    expect(practice.session.second).toBe(12 * 3600);
    expect(practice.session.sleep()).toBe(false);
  });

  it('plays itself to the end, tells whoever listens, and stops when it is closed', {
    timeout: 30_000,
  }, () => {
    const practice = driven({ auto: true }, 240);
    let told = 0;
    practice.session.subscribe(() => {
      told += 1;
    });
    for (let n = 0; n < 3000 && practice.session.run.batch.finishedAt === null; n += 1) practice.live(1000);
    expect(practice.session.run.batch.finishedAt).not.toBeNull();
    expect(practice.session.debrief().lost).toEqual([]);
    expect(told).toBeGreaterThan(300);
    practice.session.close();
    const before = told;
    practice.live(1000);
    expect(told).toBe(before);
  });
});

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'stovehand-practice-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const note = (seed: number): PracticeNote => ({
  wall: 1000 + seed,
  seed,
  recipe: 'Rye',
  right: 10,
  of: 12,
  lost: ['wet'],
  next: 'towel',
  wrong: ['towel'],
});

describe('progress', () => {
  it('is kept in one small file of its own', () => {
    const home = join(folder, 'practice');
    expect(readProgress(home)).toEqual([]);
    expect(keepProgress(home, note(1))).toBeNull();
    expect(keepProgress(home, note(2))).toBeNull();
    expect(readProgress(home)).toEqual([note(1), note(2)]);
    expect(readdirSync(home)).toEqual(['progress.json']);
  });
  it('keeps the last two hundred', () => {
    for (let seed = 0; seed < 203; seed += 1) keepProgress(folder, note(seed));
    expect(readProgress(folder).length).toBe(200);
    expect(readProgress(folder)[0]).toEqual(note(3));
  });
  it('leaves out what cannot be read, and says what cannot be written', () => {
    const path = join(folder, 'progress.json');
    writeFileSync(path, JSON.stringify([note(1), { seed: 'x' }, null, { ...note(2), wrong: [5] }, note(3)]));
    expect(readProgress(folder)).toEqual([note(1), note(3)]);
    writeFileSync(path, '{ torn');
    expect(readProgress(folder)).toEqual([]);
    writeFileSync(join(folder, 'file'), '');
    expect(keepProgress(join(folder, 'file'), note(1))).toMatch(/^The practice could not be noted: /);
  });
});

function report(...words: string[]) {
  const out = execFileSync(process.execPath, [PROGRAM, 'practise', ...words, '--report', '--home', folder], {
    encoding: 'utf8',
    env: { PATH: process.env.PATH },
  });
  return JSON.parse(out);
}

describe('stovehand practise --report', () => {
  it('prints a debrief that is the same for the same seed, and writes nothing', { timeout: 60_000 }, () => {
    const said = report('wheat-first-run', '--seed', '7', '--fault', 'none');
    expect(said).toMatchObject({ practice: true, seed: 7, faults: [], lost: [], next: null, mistakes: [] });
    expect(said.decisions.length).toBeGreaterThan(9);
    expect(said.notice).toContain('estimate');
    expect(report('wheat-first-run', '--seed', '7', '--fault', 'none')).toEqual(said);
    expect(readdirSync(folder)).toEqual([]);
  });
  it('says in the README what every field means', { timeout: 60_000 }, () => {
    const said = report(
      'wheat-first-run',
      '--seed',
      '7',
      '--fault',
      'gas-out',
      '--mistake',
      'warm-inoculation',
    );
    const readme = readFileSync(new URL('../../../README.md', import.meta.url), 'utf8');
    const told = [said, said.numbers, said.decisions[0], said.faults[0]].flatMap(part => Object.keys(part));
    for (const key of new Set(told)) {
      if (!['practice', 'notice', 'id', 'name', 'sign', 'load', 'says'].includes(key))
        expect(readme, key).toContain(`\`${key}\``);
    }
    expect(said.numbers.f0Min.low).toBeLessThan(said.numbers.f0Min.likely);
    expect(said.numbers.risk.low).toBeLessThanOrEqual(said.numbers.risk.high);
    expect(said.mistakes).toEqual([{ id: 'warm-inoculation', says: MISTAKE_WORDS['warm-inoculation'] }]);
  });
  it('answers "what if I skip the vent?"', { timeout: 60_000 }, () => {
    const said = report('rye-bags', '--seed', '3', '--mistake', 'no-vent');
    expect(said.lost).toContain('air');
    expect(said.practiseNext).toMatch(/steady|jet|hold/);
    expect(said.numbers.airLeft).toBeGreaterThan(0.5);
  });
  it('refuses what it does not know in one sentence', { timeout: 60_000 }, () => {
    for (const [words, sentence] of [
      [['--fault', 'meteor'], 'There is no fault of that name.'],
      [['--mistake', 'meteor'], 'There is no mistake of that name.'],
      [['--seed', '10000'], 'A seed is a whole number from 0 to 9999.'],
      [['--seed', 'x'], 'A seed is a whole number from 0 to 9999.'],
      [['--speed', '7'], 'A speed is one of 1, 2, 5, 10, 30, 60, 240.'],
      [['--fault', 'none,gas-out'], 'The fault "none" stands alone'],
      [['--fault', 'soft-grain,stubborn-grain'], 'Grain is soft or stubborn, not both.'],
    ] as const) {
      try {
        execFileSync(process.execPath, [PROGRAM, 'practise', ...words, '--report', '--home', folder], {
          encoding: 'utf8',
          stdio: 'pipe',
        });
        expect.unreachable(`${words.join(' ')} was taken`);
      } catch (problem) {
        expect(problem).toMatchObject({ status: 2 });
        expect(String((problem as { stderr: string }).stderr)).toContain(sentence);
      }
    }
  });
  it('makes mistakes only where it plays by itself', { timeout: 60_000 }, () => {
    try {
      execFileSync(process.execPath, [PROGRAM, 'practise', '--mistake', 'no-vent', '--home', folder], {
        encoding: 'utf8',
        stdio: 'pipe',
      });
      expect.unreachable('a mistake without --report or --auto was taken');
    } catch (problem) {
      expect(problem).toMatchObject({ status: 2 });
      expect(String((problem as { stderr: string }).stderr)).toContain('you make your own');
    }
  });
  it('keeps practice out of everything that counts batches', () => {
    const text = readFileSync(new URL('../../../src/cli/practise.ts', import.meta.url), 'utf8');
    expect(text).not.toContain('beginBatch');
  });
});
