/** Commands that print and end: recipes, check, kitchen, batches, show. Data on stdout, text or JSON. */
import type { Batch } from '../core/batch/state.ts';
import { withDefaults } from '../core/kitchen.ts';
import { fieldNamed, isAssumed, KITCHEN_FIELDS } from '../core/kitchen-fields.ts';
import { formatDuration, formatMass, formatPressure } from '../core/quantity-format.ts';
import { visible, visibleJson } from '../core/text.ts';
import { STEP_NAMES } from '../core/words/steps.ts';
import { TROUBLE_WORDS } from '../core/words/troubles.ts';
import { listBatches } from '../shell/batches.ts';
import { EXIT, GrowerError } from '../shell/failure.ts';
import { clockText, dateText, wallOf } from '../face/format.ts';
import type { Arguments } from './arguments.ts';
import { problemLine, readRecipes, type World } from './world.ts';

const print = (text: string): void => void process.stdout.write(`${text}\n`);
const printJson = (value: unknown): void => print(visibleJson(value));

/** Carries the command out; the answer is the exit code. Throws GrowerError. */
export async function listing(said: Arguments, world: World): Promise<number> {
  switch (said.command) {
    case 'recipes':
      return recipes(said, world);
    case 'check':
      return check(said);
    case 'kitchen':
      return kitchen(said, world);
    case 'batches':
      return batches(said, world);
    default:
      return show(said, world);
  }
}

async function recipes({ json }: Arguments, world: World): Promise<number> {
  const all = await readRecipes(world);
  if (json) printJson(all);
  else {
    for (const { name, own, recipe, problems } of all) {
      print(
        `${visible(name).padEnd(24)} ${recipe ? visible(recipe.name) : 'cannot be used'}${own ? ' (yours)' : ''}`,
      );
      for (const problem of problems) print(`  ${visible(problem)}`);
    }
  }
  return all.some(({ recipe }) => recipe === null) ? EXIT.badFile : EXIT.ok;
}

async function check({ words: [file = ''], json }: Arguments): Promise<number> {
  const { readRecipeFile } = await import('../shell/recipe-file.ts');
  const parsed = readRecipeFile(file, file);
  if (json) printJson(parsed);
  else if (parsed.ok) {
    print(`${visible(file)} is fine: ${visible(parsed.recipe.name)}`);
    for (const warning of parsed.warnings) print(`  ${visible(problemLine(warning))}`);
  } else {
    for (const problem of parsed.problems) process.stderr.write(`${visible(problemLine(problem))}\n`);
  }
  return parsed.ok ? EXIT.ok : EXIT.badFile;
}

async function kitchen({ words: [name, value], json }: Arguments, world: World): Promise<number> {
  const { settings } = world;
  if (name !== undefined && value !== undefined) {
    const field = fieldNamed(name);
    if (!field) {
      throw new GrowerError(`The kitchen has no "${visible(name)}".`, {
        tryThis: [`It has: ${KITCHEN_FIELDS.map(known => known.name).join(', ')}`],
        exitCode: EXIT.usage,
      });
    }
    const read = field.read(value, withDefaults(settings.values.kitchen).kitchen);
    if (!read.ok) {
      throw new GrowerError(`${name}: "${visible(value)}" cannot be read; expected ${read.expected}.`, {
        exitCode: EXIT.usage,
      });
    }
    await settings.save({ kitchen: { ...settings.values.kitchen, ...read.value } });
  }
  for (const notice of settings.notices) process.stderr.write(`${visible(notice)}\n`);
  const known = withDefaults(settings.values.kitchen);
  if (json) {
    printJson({ ...known.kitchen, assumed: [...known.assumed] });
    return EXIT.ok;
  }
  for (const field of KITCHEN_FIELDS) {
    const assumed = isAssumed(field, known.assumed) ? '  (assumed)' : '';
    print(`${field.name.padEnd(18)} ${visible(field.show(known.kitchen))}${assumed}`);
  }
  return EXIT.ok;
}

const stateOf = (batch: Batch): string => {
  if (batch.finishedAt === null) return `in step ${STEP_NAMES[batch.step].toLowerCase()}`;
  return batch.endedEarly ? 'ended early' : 'done';
};

function batches({ json }: Arguments, world: World): number {
  const all = listBatches(world.batches);
  if (json) {
    printJson(all.map(({ id, path, batch, says }) => ({ id, path, says, ...(batch ? summary(batch) : {}) })));
    return EXIT.ok;
  }
  if (all.length === 0) print('No batch yet.');
  for (const { id, batch, says } of all) {
    if (batch)
      print(
        `${id.padEnd(8)} ${dateText(batch.header.beganWall)}  ${visible(batch.header.recipe.name)}, ${stateOf(batch)}`,
      );
    for (const notice of says) print(`${batch ? '  ' : `${id.padEnd(8)} `}${visible(notice)}`);
  }
  return EXIT.ok;
}

/** The parts of a batch that a listing shows. */
function summary(batch: Batch) {
  return {
    recipe: batch.header.recipe.name,
    began: new Date(batch.header.beganWall).toISOString(),
    step: batch.step,
    state: stateOf(batch),
    containers: batch.containers,
    deviations: batch.deviations,
  };
}

function show({ words: [id = ''], json }: Arguments, world: World): number {
  const found = listBatches(world.batches).find(batch => batch.id === id);
  if (!found) {
    throw new GrowerError(`There is no batch "${visible(id)}" here.`, {
      tryThis: ['List them with: stovehand batches'],
      exitCode: EXIT.usage,
    });
  }
  const { batch, says } = found;
  for (const notice of says) process.stderr.write(`${visible(notice)}\n`);
  if (!batch) return EXIT.badFile;
  if (json) printJson(batch);
  else printBatch(batch);
  return EXIT.ok;
}

function printBatch(batch: Batch): void {
  const { header } = batch;
  const { units } = header.kitchen;
  const at = (t: number): string => clockText(wallOf(batch, t));
  print(
    `${header.id}  ${visible(header.recipe.name)}, begun ${dateText(header.beganWall)}: ${stateOf(batch)}`,
  );
  print(
    `gauge ${formatPressure(header.numbers.targetKPa, units)}, hold ${formatDuration(header.numbers.holdS)}`,
  );
  print('\nSteps');
  for (const { step, load, from, to } of batch.times) {
    if (step === 'done') continue;
    const spent = to === null ? 'now' : formatDuration(Math.round((to - from) / 1000));
    print(
      `  ${at(from)}  ${STEP_NAMES[step].padEnd(18)} ${header.numbers.loads.length > 1 ? `load ${load}  ` : ''}${spent}`,
    );
  }
  print('\nContainers');
  for (const { number, kg, state, dose, leftOut } of batch.containers) {
    const weight = kg === null ? '-' : formatMass(kg, units);
    const fate = state === 'torn' ? 'damaged' : leftOut ? 'left out' : dose === null ? '' : `${dose} ml or g`;
    print(`  ${String(number).padStart(2)}  ${weight.padEnd(10)} ${fate}`);
  }
  if (batch.deviations.length > 0) print('\nDeviations');
  for (const { t, trouble, container, takenBack } of batch.deviations) {
    const which = container === null ? '' : ` (container ${container})`;
    print(`  ${at(t)}  ${TROUBLE_WORDS[trouble].name}${which}${takenBack ? ', taken back' : ''}`);
  }
}
