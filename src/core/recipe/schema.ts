/**
 * The recipe file: every key, what it may hold and what an editor says about it. The one description from
 * which files are read, the JSON Schema beside the shipped recipes is made, and unknown keys are found.
 * A beginner needs name, grain and the containers' count, fill and size; `defaults.ts` fills in the rest.
 */

import * as z from 'zod/mini';
import {
  parseCount,
  parseDuration,
  parseMass,
  parsePercent,
  parsePressure,
  parseTemperature,
  parseVolume,
  parseWaterPerKg,
  type Range,
} from '../quantity.ts';
import { parseSize } from '../quantity-size.ts';
import { visible, visibleLines } from '../text.ts';
import { choice, field, type KeyHelp, keyHelp, words, yesNo } from './fields.ts';
import { GRAINS } from './recipe.ts';
import { LIMITS, parseAmount, parseNoSoak } from './values.ts';

const time = (range: Range, help: KeyHelp) => field(text => parseDuration(text, range), help);
const mass = (range: Range, help: KeyHelp) => field(text => parseMass(text, range), help);
const percent = (range: Range, help: KeyHelp) => field(text => parsePercent(text, range), help);

const containers = z
  .strictObject({
    kind: z.optional(choice(['bag', 'jar'], { description: 'Filter-patch bag or jar.', default: 'bag' })),
    count: field(text => parseCount(text, LIMITS.count), {
      description: 'How many bags or jars are filled.',
      type: 'integer',
      minimum: LIMITS.count.least,
      maximum: LIMITS.count.most,
      examples: [6],
    }),
    fill: mass(LIMITS.fillKg, {
      description: 'Hydrated, surface-dry grain in each one.',
      examples: ['1 kg', '700 g', '2 lb 4 oz'],
    }),
    most: z.optional(
      mass(LIMITS.fillKg, {
        description:
          'Hydrated grain that fits below the filter or the shoulder; filling above is refused. Left out: a tenth more than the fill.',
        examples: ['1.2 kg'],
      }),
    ),
    size: field(parseSize, {
      description:
        'Size of one when filled: three sides of a bag, or width and height of a jar. The smallest side decides how long the hold must be.',
      examples: ['18 x 11 x 8 cm', '9 cm wide, 12.5 cm high', '7 x 4.5 x 3 in'],
    }),
    touching: z.optional(
      yesNo({
        description: 'Pressed against one another in the cooker, so that they heat as one block.',
        default: 'no',
      }),
    ),
  })
  .register(keyHelp, { description: 'What the grain is filled into.' });

const soakTimes = z.strictObject({
  shortest: z.optional(
    time(LIMITS.soakS, { description: 'Soak at least so long.', default: '12 h', examples: ['12 h'] }),
  ),
  longest: z.optional(
    time(LIMITS.soakS, {
      description: 'Longer than this the grain begins to ferment.',
      default: '24 h',
      examples: ['24 h'],
    }),
  ),
});

const simmer = z
  .strictObject({
    'first look': z.optional(
      time(LIMITS.lookS, {
        description: 'From the simmer to the first cut kernel. Left out: by grain and soak.',
        examples: ['10 min'],
      }),
    ),
    'look every': z.optional(
      time(LIMITS.lookS, { description: 'Between looks while the core is white.', default: '5 min' }),
    ),
    'near every': z.optional(
      time(LIMITS.lookS, {
        description: 'Between looks once only a thin white line is left.',
        default: '2 min',
      }),
    ),
    water: z.optional(
      field(text => parseWaterPerKg(text, LIMITS.waterPerKg), {
        description: 'Water in the pot for the dry grain.',
        default: '2.5 L per kg',
        examples: ['2.5 L per kg', '1.2 qt per lb'],
      }),
    ),
  })
  .register(keyHelp, { description: 'How the simmer is watched.' });

const dry = z
  .strictObject({
    about: z.optional(
      time(LIMITS.dryS, { description: 'Usual time until the surface is dry.', default: '2 h' }),
    ),
    'stir every': z.optional(time(LIMITS.stirS, { description: 'Between stirs.', default: '25 min' })),
    towel: z.optional(
      time(LIMITS.towelS, { description: 'How long the paper towel lies on the grain.', default: '20 s' }),
    ),
  })
  .register(keyHelp, { description: 'Surface-drying of the drained grain.' });

const moisture = z
  .strictObject({
    stored: z.optional(
      percent(LIMITS.moisture, {
        description: 'Water in the grain as bought, by weight.',
        default: '12 %',
        examples: ['12 %'],
      }),
    ),
    wanted: z.optional(
      percent(LIMITS.moisture, {
        description: 'Water in the hydrated grain, by weight. Left out: 48 %, millet and brown rice 45 %.',
        examples: ['48 %'],
      }),
    ),
  })
  .register(keyHelp, { description: 'Water as a share of the total weight, before and after.' });

const culture = z
  .strictObject({
    form: z.optional(
      choice(['liquid culture', 'spore syringe', 'grain spawn'], {
        description: 'What is inoculated with.',
        default: 'liquid culture',
      }),
    ),
    species: z.optional(
      words('a species', 0, 60, visible, {
        description: 'Culinary species, in your own words.',
        examples: ['oyster'],
      }),
    ),
    each: z.optional(
      field(parseAmount, {
        description: 'For each bag or jar: mL of liquid, or g of grain spawn. Left out: by form and fill.',
        examples: ['5 ml', '100 g'],
      }),
    ),
  })
  .register(keyHelp, { description: 'What goes into each bag or jar next day.' });

/** The whole file. */
export const recipeFile = z.strictObject({
  name: words('a name', 1, 60, visible, {
    description: 'What the batch is called on screen and label.',
    examples: ['Rye, six bags'],
  }),
  grain: choice(GRAINS, { description: 'Which cereal.' }),
  note: z.optional(
    words('a note', 0, 2000, visibleLines, { description: 'Anything you want to read before you begin.' }),
  ),
  containers,
  moisture: z.optional(moisture),
  soak: z.optional(
    z
      .union([soakTimes, field(parseNoSoak, { description: 'No soak.', enum: ['no'] })])
      .register(keyHelp, { description: 'Cold soak before the simmer; left out or "no": none.' }),
  ),
  simmer: z.optional(simmer),
  dry: z.optional(dry),
  seal: z.optional(
    choice(['before', 'after'], {
      description: 'Seal before or after the pressure cooker.',
      default: 'before',
    }),
  ),
  'cooker water': z.optional(
    field(text => parseVolume(text, LIMITS.cookerWaterL), {
      description:
        'Water to pour into the cooker for each load, where more is wanted than the plan works out; never less than that. Left out: as worked out.',
      examples: ['2.5 L', '2.6 qt'],
    }),
  ),
  vent: z.optional(
    time(LIMITS.ventS, {
      description: 'Unbroken steam with the valve open before it is closed.',
      default: '10 min',
    }),
  ),
  pressure: z.optional(
    field(text => parsePressure(text, LIMITS.gaugeKPa), {
      description: 'Gauge pressure of the hold, at most 25 psi; the marks of your own cooker decide.',
      default: '15 psi',
      examples: ['15 psi', '1 bar', '103 kPa'],
    }),
  ),
  temperature: z.optional(
    field(text => parseTemperature(text, LIMITS.celsius), {
      description: 'Instead of a pressure: steam temperature of the hold, 105 C to 130 C.',
      examples: ['121 C', '250 F'],
    }),
  ),
  hold: z.optional(
    time(LIMITS.holdS, {
      description: 'Time at target. Left out: 90 min, 75 min for less than 0.9 kg.',
      examples: ['90 min', '2 h 30 min'],
    }),
  ),
  dips: z.optional(
    choice(['restart', 'make up'], {
      description:
        'When the pressure fell below target: restart the whole hold, as canning guidance says, or make up the missing minutes.',
      default: 'restart',
    }),
  ),
  cool: z.optional(
    time(LIMITS.coolS, {
      description: 'Shut from heat-off, to protect the containers.',
      default: '9 h',
      examples: ['9 h'],
    }),
  ),
  culture: z.optional(culture),
});

export type RecipeFile = z.output<typeof recipeFile>;
