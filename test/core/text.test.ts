import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { atMost, visible, visibleLines } from '../../src/core/text.ts';

// Independent of the code: the Unicode properties built into the JavaScript engine.
const steering = /\p{Cc}|\p{Bidi_Control}|\p{Zl}|\p{Zp}|\p{Cs}/u;
const hostile = fc.string({
  unit: fc.oneof(
    fc.constantFrom(
      '\u001b',
      '\u009b',
      '\u0007',
      '\u202e',
      '\u2066',
      '\r',
      '\n',
      '\t',
      '\u2028',
      '\ud800',
      'é',
    ),
    fc.integer({ min: 0, max: 0xffff }).map(code => String.fromCharCode(code)),
    fc.string({ unit: 'grapheme', minLength: 1, maxLength: 1 }),
  ),
  maxLength: 60,
});

describe('text shown on the screen', () => {
  it('S8: holds no control character, no bidirectional control, no half character, whatever it was', () => {
    fc.assert(
      fc.property(hostile, text => {
        expect(visible(text)).not.toMatch(steering);
        expect(visibleLines(text).replaceAll('\n', '')).not.toMatch(steering);
        expect(atMost(visible(text), 20)).not.toMatch(steering);
      }),
      { numRuns: 5000, seed: 8 },
    );
  });

  it('S8: shows every single steering character of Unicode as something else', () => {
    for (let code = 0; code <= 0x10ffff; code += 1) {
      const character = String.fromCodePoint(code);
      if (steering.test(character)) expect(visible(character)).not.toContain(character);
    }
  });

  it('leaves ordinary text of any script alone', () => {
    for (const text of ['Roggen, 6 Beutel', '小麦', 'جاودار', '👩‍🌾 🍄', 'क्ष', '½ qt · 121 °C']) {
      expect(visible(text)).toBe(text);
    }
  });

  it('shows what it replaced', () => {
    expect(visible('\u001b[2Jrye\u0007\u007f')).toBe('␛[2Jrye␇␡');
    expect(visible('a\u202eb\u009b')).toBe('a\\u202eb\\u009b');
    expect(visible('a\nb')).toBe('a␊b');
    expect(visibleLines('a\r\nb\tc\u001b')).toBe('a\nb  c␛');
  });

  it('cuts to a length without halving a character', () => {
    expect(atMost('sorghum', 7)).toBe('sorghum');
    expect(atMost('sorghum', 5)).toBe('sorg…');
    expect(atMost('ab🍄cd', 4)).toBe('ab…');
  });
});
