/** Commands that print and end: recipes, check, kitchen, batches, show. Data on stdout, text or JSON. */
import type { Batch } from '../core/batch/state.ts';
import { withDefaults } from '../core/kitchen.ts';
import { fieldNamed, isAssumed, KITCHEN_FIELDS } from '../core/kitchen-fields.ts';
import { bagsOf, indexDiary } from '../core/record/bags.ts';
import { visible, visibleJson } from '../core/text.ts';
import { doneTitle, endWithDeviations } from '../core/words/done.ts';
import { speciesNote } from '../core/words/record.ts';
import { STEP_NAMES } from '../core/words/steps.ts';
import { listBatches } from '../shell/batches.ts';
import { EXIT, GrowerError } from '../shell/failure.ts';
import { dateText } from '../face/format.ts';
import type { Arguments } from './arguments.ts';
import { diaryOf } from './record-world.ts';
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
      return (await import('./show.ts')).show(said, world);
  }
}

async function recipes({ json }: Arguments, world: World): Promise<number> {
  const all = await readRecipes(world);
  if (json) printJson(all);
  else {
    const widest = Math.max(24, ...all.map(({ name }) => visible(name).length));
    for (const { name, own, recipe, problems } of all) {
      print(
        `${visible(name).padEnd(widest)}  ${recipe ? visible(recipe.name) : 'cannot be used'}${own ? ' (yours)' : ''}`,
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
    const note = speciesNote(parsed.recipe.culture.species);
    if (note !== null) print(`  ${visible(note)}`);
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
    if (read.says !== undefined) process.stderr.write(`${read.says}\n`);
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

export const stateOf = (batch: Batch): string => {
  if (batch.finishedAt === null) return `in step ${STEP_NAMES[batch.step].toLowerCase()}`;
  return doneTitle(batch).toLowerCase();
};

function batches({ json }: Arguments, world: World): number {
  const all = listBatches(world.batches);
  if (json) {
    printJson(all.map(({ id, path, batch, says }) => ({ id, path, says, ...(batch ? summary(batch) : {}) })));
    return EXIT.ok;
  }
  if (all.length === 0) print('No batch yet.');
  const diary = indexDiary(all.length === 0 ? [] : diaryOf(world).read().entries);
  for (const { id, batch, says } of all) {
    if (batch)
      print(
        `${id.padEnd(8)} ${dateText(batch.header.beganWall).padStart(11)}  ${visible(batch.header.recipe.name)}, ${batch.finishedAt === null ? stateOf(batch) : endWithDeviations(batch, bagsOf(batch, diary))}`,
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
