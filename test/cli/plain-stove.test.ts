import { describe, expect, it } from 'vitest';
import { readLine } from '../../src/cli/plain-lines.ts';
import { choiceWords } from '../../src/core/words/asks.ts';
import { DEFAULT_KITCHEN, type Units } from '../../src/core/kitchen.ts';
import { tellingOf } from '../../src/face/format.ts';
import { stove } from '../core/estimate/stove-kit.ts';

const UNITS = DEFAULT_KITCHEN.units;
const AMERICAN: Units = { ...UNITS, temperature: 'F', pressure: 'kPa' };
const climbing = () => stove().toClimb().run;

describe('a line at the stove', () => {
  it('reads a thermometer, in a container or against the vessel, in the person’s degrees', () => {
    expect(readLine(climbing(), 'm 63,5', UNITS)).toEqual({
      kind: 'deed',
      deed: { type: 'measured', of: 'centre', celsius: 63.5 },
    });
    const vessel = readLine(climbing(), 'M vessel 176', AMERICAN);
    // 176 F is 80 C, (176 - 32) / 1.8 by hand.
    expect(vessel).toMatchObject({ deed: { of: 'vessel', celsius: expect.closeTo(80, 6) } });
    expect(readLine(climbing(), 'm warm', UNITS)).toMatchObject({ kind: 'say' });
  });
  it('asks for the numbers and keeps what was measured', () => {
    expect(readLine(climbing(), 'n', UNITS)).toEqual({ kind: 'numbers' });
    expect(readLine(climbing(), 'k', UNITS)).toEqual({ kind: 'keep-probe' });
  });
  it('lists the causes of no climb and takes one by its number, only while it climbs', () => {
    expect(readLine(climbing(), 'c', UNITS)).toMatchObject({
      says: expect.stringMatching(/^c 1: the valve was opened[\s\S]*c 5: the gauge/),
    });
    expect(readLine(climbing(), 'c 4', UNITS)).toEqual({
      kind: 'deed',
      deed: { type: 'trouble', trouble: 'flame-weak' },
    });
    expect(readLine(climbing(), 'c 9', UNITS)).toMatchObject({ kind: 'say' });
    expect(readLine(stove().toHold().run, 'c', UNITS)).toMatchObject({
      says: expect.stringMatching(/while the pressure climbs/),
    });
  });
  it('ends a batch only by the word after the number', () => {
    const hold = stove().toHold().run;
    for (const line of ['t 1', 't 1 on', 't 2']) {
      expect(readLine(hold, line, UNITS)).toMatchObject({
        kind: 'say',
        says: expect.stringMatching(/That ends the batch: t \d off$/),
      });
    }
    expect(readLine(hold, 't 2 off', UNITS)).toEqual({
      kind: 'deed',
      deed: { type: 'trouble', trouble: 'water-low' },
    });
    expect(readLine(climbing(), 'c 3', UNITS)).toMatchObject({ kind: 'say' });
  });
  it('names dip and too much pressure in the list of troubles', () => {
    expect(readLine(stove().toHold().run, 't', UNITS)).toMatchObject({
      says: expect.stringMatching(
        /t 1: over the mark[\s\S]*t 7: the pressure dipped\nt 8: pressure above target/,
      ),
    });
  });
});

describe('a cooker with a weight', () => {
  it('is read by its rocking', () => {
    const weight = stove({}, header => ({
      ...header,
      kitchen: { ...header.kitchen, gauge: 'weight' },
    })).toHold();
    const words = ['below', 'at', 'above', 'reading'].map(choice =>
      choiceWords(weight.batch, 'holding', choice, tellingOf(weight.batch, UNITS)),
    );
    expect(words).toEqual(['weight still', 'rocks steadily', 'rocks hard', 'number']);
  });
});
