import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  parseAltitude,
  parseCount,
  parseDuration,
  parseLength,
  parseMass,
  parsePercent,
  parsePower,
  parsePressure,
  parseTemperature,
  parseVolume,
  parseWaterPerKg,
} from '../../src/core/quantity.ts';
import { parseSize } from '../../src/core/quantity-size.ts';

// Conversion factors: NIST Special Publication 811 (2008), appendix B (MEMORY): pound 0.453 592 37 kg, ounce
// 28.349 52 g, inch 25.4 mm, foot 0.3048 m, US gallon 3.785 412 L, US quart 0.946 352 9 L, psi 6.894 757 kPa, bar
// 100 kPa, inHg 3.386 389 kPa, Btu(IT)/h 0.293 071 1 W; Celsius = (F - 32)/1.8, 250 F = 121.111 C (science notes d, READ).
const WRITTEN = [
  [parseMass, '1.1 kg', 1.1],
  [parseMass, '700 g', 0.7],
  [parseMass, '2 lb 4 oz', 1.020583],
  [parseMass, '2lb, 4oz', 1.020583],
  [parseMass, '2 lb and 4 oz', 1.020583],
  [parseMass, '1,5 kg', 1.5],
  [parseMass, '0,750 kg', 0.75],
  [parseMass, '2½ lb', 1.133981],
  [parseMass, '2 1/2 pounds', 1.133981],
  [parseMass, '8 OZ', 0.2267962],
  [parseVolume, '10 L', 10],
  [parseVolume, '500 ml', 0.5],
  [parseVolume, '4 qt', 3.785412],
  [parseVolume, '5.5 gallons', 20.819766],
  [parseLength, '30 cm', 0.3],
  [parseLength, '11.8 in', 0.29972],
  [parseLength, '290mm', 0.29],
  [parseAltitude, '640 m', 640],
  [parseAltitude, '2100 ft', 640.08],
  [parseAltitude, '-20 m', -20],
  [parsePressure, '15 psi', 103.42136],
  [parsePressure, '1 bar', 100],
  [parsePressure, '103 kPa', 103],
  [parsePressure, '945 hPa', 94.5],
  [parsePressure, '28 inHg', 94.81889],
  [parseTemperature, '121 C', 121],
  [parseTemperature, '250 °F', 121.1111],
  [parseTemperature, '-4 F', -20],
  [parseDuration, '90 min', 5400],
  [parseDuration, '1 h 30 min', 5400],
  [parseDuration, '1h30min', 5400],
  [parseDuration, '14 h', 50_400],
  [parseDuration, '20 s', 20],
  [parseDuration, '12 days', 1_036_800],
  [parsePercent, '48 %', 0.48],
  [parsePercent, '48percent', 0.48],
  [parsePower, '3 kW', 3000],
  [parsePower, '10000 BTU/h', 2930.711],
  [parseWaterPerKg, '2.5 L per kg', 2.5],
  [parseWaterPerKg, '2.5 l/kg', 2.5],
  [parseWaterPerKg, '1.2 qt per lb', 2.503621],
  [parseCount, '6', 6],
] as const;

describe('quantities as people write them', () => {
  it.each(WRITTEN)('%o reads "%s" as %d', (parse, text, expected) => {
    const result = parse(text);
    expect(result.ok).toBe(true);
    if (result.ok) expect(Math.abs(result.value - expected)).toBeLessThanOrEqual(2e-7 * Math.abs(expected));
  });

  it('reads decimal quantities as the double nearest to what was written', () => {
    expect(parseLength('7 cm')).toEqual({ ok: true, value: 0.07 });
    expect(parseLength('4.1 cm')).toEqual({ ok: true, value: 0.041 });
    expect(parseMass('290 g')).toEqual({ ok: true, value: 0.29 });
    expect(parsePercent('57 %')).toEqual({ ok: true, value: 0.57 });
  });
});

const says = (result: ReturnType<typeof parseMass>) =>
  result.ok ? `read as ${result.value}` : result.expected;

describe('refusals', () => {
  it.each([
    '',
    ' ',
    'kg',
    'NaN',
    'Infinity kg',
    '1e99 kg',
    '0x10 kg',
    '1/0 kg',
    '1 kg 1 kg',
    '4 oz 2 lb',
    '--1 kg',
    '1 kg -4 oz',
    '0 kg',
    '-1 kg',
    '101 kg',
    '99999999999999999999 kg',
    '1 stone',
    '1 L',
    '1..5 kg',
    '1.000.000 g',
    '1 kg,',
    `1${' '.repeat(500)}kg`,
    `${'9'.repeat(400)} kg`,
  ])('refuses "%s" as a mass with a phrase that names the range', text => {
    expect(says(parseMass(text))).toMatch(/^a mass.* from .+ to .+, such as 1\.1 kg or 2 lb 4 oz$/);
  });

  it('says what is missing, in the units the person wrote', () => {
    expect(says(parseMass('1.1'))).toBe(
      'a mass with its unit (kg, lb, oz or g) from 1 g to 100 kg, such as 1.1 kg or 2 lb 4 oz',
    );
    expect(says(parseMass('1,500 g'))).toContain(
      'without a comma before three digits (1,500 can mean 1500 or 1.5)',
    );
    expect(says(parseMass('900 lb'))).toContain('from 0 oz to 220 lb 7.4 oz');
    expect(says(parseTemperature('900 F'))).toContain('from -40 °F to 572 °F');
    expect(says(parseDuration('90 psi', { least: 900, most: 21_600 }))).toBe(
      'a length of time in days, h, min or s from 15 min to 6 h, such as 90 min or 1 h 30 min',
    );
    expect(says(parsePressure('40 psi', { least: 34.5, most: 172.4, example: '15 psi' }))).toBe(
      'a pressure from 5 psi to 25 psi, such as 15 psi',
    );
    expect(says(parseCount('6.5'))).toBe('a whole number from 1 to 1000, such as 6');
  });

  it.each(['1:30', '8-9 h', '90', '1h30', '90 m', 'h', '1 min 1 h'])(
    'does not guess what the time "%s" means',
    text => {
      expect(parseDuration(text).ok).toBe(false);
    },
  );
});

describe('sizes', () => {
  const brick = (lengthM: number, widthM: number, thicknessM: number) => ({
    shape: 'brick',
    lengthM,
    widthM,
    thicknessM,
  });
  const cylinder = (diameterM: number, heightM: number) => ({ shape: 'cylinder', diameterM, heightM });
  it.each([
    ['18 x 11 x 8 cm', brick(0.18, 0.11, 0.08), false],
    ['8x18x11cm', brick(0.18, 0.11, 0.08), false],
    ['18 cm × 11 cm × 80 mm', brick(0.18, 0.11, 0.08), false],
    ['18 by 11 by 7,5 cm', brick(0.18, 0.11, 0.075), false],
    ['11 cm wide, 16.5 cm high', cylinder(0.11, 0.165), false],
    ['16.5 cm tall x 11 cm across', cylinder(0.11, 0.165), false],
    ['11 wide and 16.5 cm high', cylinder(0.11, 0.165), false],
    ['9 x 12.5 cm', cylinder(0.09, 0.125), true],
  ])('reads "%s"', (text, size, guessed) => {
    expect(parseSize(text)).toEqual({ ok: true, value: { size, guessed } });
  });

  it('reads inches and fractions', () => {
    const result = parseSize('7 in high, 4 1/2 in wide');
    expect(result.ok && result.value.size).toEqual({
      shape: 'cylinder',
      diameterM: expect.closeTo(0.1143, 9),
      heightM: expect.closeTo(0.1778, 9),
    });
  });

  it.each([
    '',
    '18 x 11 x 8',
    '18 cm',
    '1 x 2 x 3 m',
    '0 x 1 x 2 cm',
    '18 x 11 x 8 x 3 cm',
    '11 cm wide, 12 cm wide',
    '18 x -11 x 8 cm',
    'x x x cm',
    '1,000 x 11 x 8 cm',
  ])('refuses "%s"', text => {
    const result = parseSize(text);
    expect(result.ok ? 'read' : result.expected).toContain('such as 18 x 11 x 8 cm');
  });
});

it('never throws and never lets a number through that is out of range, whatever the text', () => {
  const pieces = fc.constantFrom(
    '1',
    '2.5',
    '1,5',
    '-',
    '−',
    '+',
    ' ',
    'kg',
    'lb',
    'oz',
    'h',
    'min',
    '%',
    '/',
    '½',
    'e9',
    'x',
    'cm',
    '"',
    "'",
    'NaN',
    '\0',
    '\u{1f344}',
  );
  const text = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 60 }),
    fc.array(pieces, { maxLength: 12 }).map(all => all.join('')),
  );
  fc.assert(
    fc.property(text, written => {
      const mass = parseMass(written);
      if (mass.ok) expect(mass.value >= 0.001 && mass.value <= 100).toBe(true);
      const time = parseDuration(written);
      if (time.ok) expect(time.value >= 1 && time.value <= 90 * 86_400).toBe(true);
      const size = parseSize(written);
      if (size.ok)
        for (const side of Object.values(size.value.size))
          if (typeof side === 'number') expect(side >= 0.02 && side <= 0.6).toBe(true);
    }),
    { seed: 2, numRuns: 5000 },
  );
});
