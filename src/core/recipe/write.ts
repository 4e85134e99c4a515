/**
 * A recipe as a commented file. Every quantity is written in the person's unit when that reads back to the
 * very same value, else in another unit that does; so what is written is always what was cooked.
 */

import { stringify } from 'yaml';
import type { Units } from '../kitchen.ts';
import {
  formatDuration,
  formatMass,
  formatPressure,
  formatSize,
  formatTemperature,
  formatVolume,
  formatWaterPerKg,
  type Parsed,
  parseDuration,
  parseMass,
  parsePressure,
  parseTemperature,
  parseVolume,
  parseWaterPerKg,
} from '../quantity.ts';
import { parseSize } from '../quantity-size.ts';
import type { ContainerSize, Recipe } from './recipe.ts';

/** First line of every recipe file: tells an editor which schema belongs to it (an open convention). */
export const SCHEMA_LINE = '# yaml-language-server: $schema=recipe.schema.json';

/** All digits of a number, its decimal point moved, never an exponent: decimal(0.075, 2) is "7.5". */
export function decimal(value: number, shift = 0): string {
  if (!Number.isFinite(value)) throw new RangeError(`A recipe cannot hold ${value}.`);
  if (value === 0) return '0';
  const [mantissa = '0', exponent = '0'] = Math.abs(value).toExponential().split('e');
  const digits = mantissa.replace('.', '');
  const point = 1 + Number(exponent) + shift;
  const padded = digits.padStart(digits.length + Math.max(0, 1 - point), '0').padEnd(Math.max(1, point), '0');
  const at = Math.max(1, point);
  const text =
    padded.length > at ? `${padded.slice(0, at)}.${padded.slice(at)}`.replace(/\.?0+$/, '') : padded;
  return value < 0 ? `-${text}` : text;
}

const exact = (value: number, read: (text: string) => Parsed<number>, texts: readonly string[]): string =>
  texts.find(text => {
    const result = read(text);
    return result.ok && result.value === value;
  }) ??
  texts.at(-1) ??
  '';

const massText = (kg: number, units: Units) =>
  exact(kg, parseMass, [formatMass(kg, units), `${decimal(kg)} kg`]);
const timeText = (s: number) => exact(s, parseDuration, [formatDuration(s), `${decimal(s)} s`]);
const percentText = (fraction: number) => `${decimal(fraction, 2)} %`;
const waterText = (litres: number, units: Units) =>
  exact(litres, parseWaterPerKg, [formatWaterPerKg(litres, units), `${decimal(litres)} L per kg`]);

const litresText = (litres: number, units: Units) =>
  exact(litres, parseVolume, [formatVolume(litres, units), `${decimal(litres)} L`]);
const temperatureText = (celsius: number, units: Units) =>
  exact(celsius, parseTemperature, [formatTemperature(celsius, units), `${decimal(celsius)} C`]);

function pressureText(kPa: number, units: Units): string {
  const all = [units, { ...units, pressure: 'psi' }, { ...units, pressure: 'bar' }] as const;
  return exact(kPa, parsePressure, [...all.map(each => formatPressure(kPa, each)), `${decimal(kPa)} kPa`]);
}

function sizeText(size: ContainerSize, units: Units): string {
  const same = (other: ContainerSize) => JSON.stringify(sides(other)) === JSON.stringify(sides(size));
  const round = (['cm', 'in'] as const).map(length => formatSize(size, { ...units, length }));
  const preferred = units.length === 'cm' ? round : round.toReversed();
  const found = preferred.find(text => {
    const result = parseSize(text);
    return result.ok && same(result.value.size);
  });
  if (found !== undefined) return found;
  const all = sides(size).map(side => decimal(side, 2));
  return size.shape === 'brick' ? `${all.join(' x ')} cm` : `${all[0]} cm wide, ${all[1]} cm high`;
}

const sides = (size: ContainerSize): readonly number[] =>
  size.shape === 'brick' ? [size.lengthM, size.widthM, size.thicknessM] : [size.diameterM, size.heightM];

/** One "key: value" of a person's own words, quoted wherever YAML could take them for anything else. */
const wordsLine = (key: string, text: string): string =>
  stringify({ [key]: text }, { lineWidth: 0 }).trimEnd();

interface Line {
  readonly text: string;
  readonly why?: string;
}
const line = (key: string, value: string | number, why?: string): Line => {
  const text = `${key}: ${value}`;
  return why === undefined ? { text } : { text, why };
};

/** A section with its comments in one column. */
function section(lines: readonly Line[], indent = '  '): string {
  const width = Math.max(0, ...lines.filter(each => each.why).map(each => each.text.length));
  return lines
    .map(({ text, why }) => indent + (why === undefined ? text : `${text.padEnd(width)}  # ${why}`))
    .join('\n');
}

/** The file of a recipe; `parseRecipe` reads it back to an equal recipe. RangeError for a value that is no number. */
export function recipeToYaml(recipe: Recipe, units: Units): string {
  const { containers, soak, simmer, drying, target, culture } = recipe;
  const amount = `${decimal(culture.perContainer)} ${culture.form === 'grain spawn' ? 'g' : 'ml'}`;
  const head = [wordsLine('name', recipe.name), line('grain', recipe.grain).text];
  if (recipe.note !== '') head.push(wordsLine('note', recipe.note));
  const parts = [
    `${SCHEMA_LINE}\n#\n# Lines that begin with "#" are only for you to read. Every amount has its unit.`,
    head.join('\n'),
    `containers:\n${section([
      line('kind', containers.kind, 'bag or jar'),
      line('count', containers.count),
      line('fill', massText(containers.fillKg, units), 'hydrated, surface-dry grain in each'),
      line('most', massText(containers.mostKg, units), 'fits below the filter or the shoulder'),
      line('size', sizeText(containers.size, units), 'of the filled part'),
      line('touching', containers.touching ? 'yes' : 'no', 'pressed together in the cooker'),
    ])}`,
    `moisture:\n${section([
      line('stored', percentText(recipe.storedMoisture), 'of the dry grain'),
      line('wanted', percentText(recipe.wantedMoisture), 'of the hydrated grain'),
    ])}`,
    soak
      ? `soak:\n${section([line('shortest', timeText(soak.shortestS)), line('longest', timeText(soak.longestS))])}`
      : 'soak: no',
    `simmer:\n${section([
      line('first look', timeText(simmer.firstLookS)),
      line('look every', timeText(simmer.everyS), 'while the core is white'),
      line('near every', timeText(simmer.nearS), 'once only a thin white line is left'),
      line('water', waterText(simmer.waterPerKg, units), 'for the dry grain'),
    ])}`,
    `dry:\n${section([
      line('about', timeText(drying.aboutS)),
      line('stir every', timeText(drying.stirEveryS)),
      line('towel', timeText(drying.towelS), 'how long a paper towel lies on the grain'),
    ])}`,
    section(
      [
        line('seal', recipe.seal, 'before or after the cooker'),
        ...(recipe.cookerWaterL === undefined
          ? []
          : [line('cooker water', litresText(recipe.cookerWaterL, units), 'for each load, at least')]),
        line('vent', timeText(recipe.ventS), 'unbroken steam before the valve is closed'),
        target.by === 'pressure'
          ? line('pressure', pressureText(target.gaugeKPa, units), 'gauge; or temperature: 121 C')
          : line('temperature', temperatureText(target.celsius, units), 'of the steam; or pressure: 15 psi'),
        line('hold', timeText(recipe.holdS), 'at target'),
        line('dips', recipe.dips, 'restart or make up'),
        line('cool', timeText(recipe.coolS), 'shut, from heat-off'),
      ],
      '',
    ),
    `culture:\n${section([
      line('form', culture.form, 'liquid culture, spore syringe or grain spawn'),
      ...(culture.species === '' ? [] : [{ text: wordsLine('species', culture.species) }]),
      line('each', amount),
    ])}`,
  ];
  return `${parts.join('\n\n')}\n`;
}
