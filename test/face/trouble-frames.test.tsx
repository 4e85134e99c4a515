import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import { STEP_IDS } from '../../src/core/batch/steps.ts';
import { TROUBLES } from '../../src/core/batch/troubles.ts';
import { MINUTE } from '../../src/core/time.ts';
import { troubleWords } from '../../src/core/words/troubles.ts';
import { tellingOf } from '../../src/face/format.ts';
import { warningOf } from '../../src/face/run-view.ts';
import { troublesOn } from '../../src/face/trouble-list.ts';
import { Drive } from '../help/batch-drive.ts';
import { sampleHeader } from '../help/batch-kit.ts';
import { panelOf, regions, screenOf, SIZES } from './estimate-kit.tsx';

const at = (step: (typeof STEP_IDS)[number]) =>
  new Drive(sampleHeader({ seal: step === 'seal-after' ? 'after' : 'before' })).to(step).wait(MINUTE).batch;

/** Drawn lines as one text, without the indents. */
const flowing = (lines: readonly string[]): string => lines.join(' ').replace(/\s+/g, ' ');

describe.each(SIZES)('the trouble list at %ix%i', (columns, rows) => {
  const { width, height } = regions(columns, rows).body;

  it('is nowhere cut: every name whole, and what to do whole or left for the moment it happens', () => {
    for (const step of STEP_IDS.filter(id => id !== 'done')) {
      const batch = at(step);
      for (let page = 0; page < troublesOn(batch, 0).of; page += 1) {
        const lines = panelOf(batch, { kind: 'trouble', page }, columns, rows);
        expect(lines.length, step).toBeLessThanOrEqual(height);
        for (const line of lines) expect(stringWidth(line), line).toBeLessThanOrEqual(width);
        const shown = flowing(lines);
        expect(shown, step).not.toContain('…');
        const { entries } = troublesOn(batch, page);
        for (const { id } of entries) expect(shown).toContain(troubleWords(id, batch).name);
        const acts = entries.filter(({ id }) => shown.includes(troubleWords(id, batch).act)).length;
        expect([0, entries.length], step).toContain(acts);
        if (columns >= 80) expect(acts, step).toBe(entries.length);
      }
    }
  });

  it('what ends a batch says whole what to do, and asks for its word', () => {
    for (const trouble of ['over-pressure', 'water-low', 'vent-blocked'] as const) {
      const lines = panelOf(at('hold'), { kind: 'ends', trouble, text: 'of' }, columns, rows);
      expect(lines.length).toBeLessThanOrEqual(height);
      const shown = flowing(lines);
      expect(shown).toContain(troubleWords(trouble, at('hold')).act);
      expect(shown).toContain(troubleWords(trouble, at('hold')).means);
      expect(shown).toMatch(/type off and Enter, or Esc if it was a slip of_/);
    }
  });

  it('leaves the question about unseen time room for what each answer means', () => {
    const away = new Drive(sampleHeader()).to('hold').wait(MINUTE).trouble('was-away').batch;
    const lines = screenOf(away, columns, rows);
    expect(lines).toHaveLength(rows);
    const shown = lines.join('\n');
    for (const said of [
      /^[^\n]*Hold$/m,
      /What did the gauge do/,
      /1 fell, below now\n.*F0 so far/,
      /4 don't know\n.*F0 so far/,
    ])
      expect(shown).toMatch(said);
    expect(shown).not.toContain('…');
  });

  it('and what is said of one that happened is whole', () => {
    const batch = at('hold');
    const telling = tellingOf(batch, batch.header.kitchen.units);
    for (const { id } of TROUBLES) {
      const { lines } = warningOf(batch, id, telling, { width: width - 2, most: 1 });
      expect(lines.join(' ')).toContain(troubleWords(id, batch).means);
      expect(lines.join(' ')).toContain(troubleWords(id, batch).act);
      // Title and two lines of instruction stand above, three rows of digits below.
      expect(lines.length, id).toBeLessThanOrEqual(height - 6);
    }
  });
});
