import { expect, it } from 'vitest';
import { step } from '../../src/core/batch/machine.ts';
import type { BatchEvent, Refusal } from '../../src/core/batch/events.ts';
import type { Run } from '../../src/core/batch/state.ts';
import type { Session } from '../../src/core/session.ts';
import { MINUTE, SECOND } from '../../src/core/time.ts';
import { VARIANTS } from '../help/batch-kit.ts';
import { follow, type Onlooker } from '../help/batch-model.ts';
import { mountApp } from '../help/mount.tsx';
import { handServices } from '../help/services.ts';
import { type Chance, createChance, EVIL_TEXTS } from './fuzz.ts';
import { type Place, placesOf } from './key-path.ts';

const CHUNKS = 2000;
/** Chunks for one program; then another one starts somewhere else. */
const EACH = 40;

/** A session that an onlooker watches: it throws as soon as a rule is broken. */
class WatchedSession implements Session {
  readonly role = 'running';
  readonly notices: readonly string[] = [];
  readonly trouble = null;
  readonly path = '/invented/2613a.batch';
  run: Run;
  deeds = 0;
  closed = false;
  broken: unknown = null;
  #model: Onlooker;
  readonly #listeners = new Set<() => void>();

  constructor({ run, model }: Place) {
    this.run = run;
    this.#model = model;
  }
  subscribe(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }
  happens(event: Omit<BatchEvent, 't' | 'wall'>, ms: number): Refusal | null {
    const { batch } = this.run;
    const whole = { ...event, t: batch.now + ms, wall: batch.wall + ms } as BatchEvent;
    const outcome = step(this.run, whole);
    if (!outcome.ok) return outcome.refusal;
    try {
      this.#model = follow(this.#model, whole, batch, outcome.run.batch);
    } catch (problem) {
      this.broken ??= problem;
    }
    this.run = outcome.run;
    for (const listener of [...this.#listeners]) listener();
    return null;
  }
  send(deed: Parameters<Session['send']>[0]): Refusal | null {
    this.deeds += 1;
    return this.happens(deed, 0);
  }
  close(): void {
    this.closed = true;
  }
}

const ESC = '\u001b';
const BYTES = [
  ...'1234 \rtuewq?npmk9.,x',
  ...['\t', '\u007f', '\b', '\n', '\0', '\u0003', '\u001c', ESC, `${ESC}${ESC}`, 'é', '🍄', '\ufffd'],
  ...[
    '[A',
    '[B',
    '[C',
    '[D',
    '[1;5A',
    '[3~',
    '[5~',
    'OP',
    '[15~',
    '[I',
    '[O',
    '[<0;3;3M',
    '[M !!',
    '[?62;c',
  ].map(rest => ESC + rest),
  ...[
    '[97u',
    '[97;1:3u',
    '[13;1:2u',
    '[200~1\r2\r\u001b[201~',
    '[201~',
    ']11;rgb:0/0/0\u0007',
    'P>|x\u001b\\',
  ].map(rest => ESC + rest),
  ...EVIL_TEXTS.slice(0, 11),
];

function chunk(chance: Chance): string {
  const keys = Array.from({ length: chance.next() < 0.6 ? 1 : 1 + chance.below(6) }, () =>
    chance.pick(BYTES),
  );
  return keys.join('').slice(0, 300);
}

it(`${CHUNKS} chunks of bytes at the drawn program: no rule broken, nothing thrown, no frame too tall`, async () => {
  const chance = createChance(404);
  const places = Object.values(VARIANTS).flatMap(placesOf);
  let deeds = 0;
  let left = 0;
  for (let sent = 0; sent < CHUNKS; ) {
    const session = new WatchedSession(chance.pick(places));
    const services = handServices();
    const app = await mountApp({ screen: 'run', session }, { services });
    let ended: unknown = null;
    app.left.then(
      () => {
        ended = 'left';
      },
      problem => {
        ended = problem;
      },
    );
    for (let each = 0; each < EACH && sent < CHUNKS; each += 1, sent += 1) {
      const meant = chance.next() < 0.5;
      services.steadyMs += meant ? 1500 : chance.pick([5, 40, 130, 300, 800, 1500]);
      const before = session.deeds;
      const bytes = meant ? chance.pick([...'1234  tu1234']) : chunk(chance);
      await app.type(bytes);
      expect(session.deeds - before, JSON.stringify(bytes)).toBeLessThanOrEqual(
        Math.max(1, bytes.split(ESC).length),
      );
      expect(session.broken).toBeNull();
      if (ended !== null) {
        expect(ended, JSON.stringify(bytes)).toBe('left');
        left += 1;
        break;
      }
      if (!session.closed) {
        const { lines } = app.screen();
        expect(
          lines.filter(line => /step \d+ of \d+ ·/.test(line)).length,
          lines.join('\n'),
        ).toBeLessThanOrEqual(1);
      }
      if (chance.next() < 0.3) session.happens({ type: 'tick' }, chance.pick([SECOND, MINUTE, 20 * MINUTE]));
    }
    deeds += session.deeds;
  }
  console.log(`${CHUNKS} chunks at the drawn program, ${deeds} deeds, left ${left} times`);
  expect(deeds).toBeGreaterThan(150);
});
