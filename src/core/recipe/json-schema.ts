/** The recipe format as JSON Schema (draft 2020-12), for editors; made from the schema that reads the files. */

import { toJSONSchema } from 'zod/mini';
import { keyHelp } from './fields.ts';
import { recipeFile } from './schema.ts';

/** The text of recipes/recipe.schema.json. */
export function recipeJsonSchema(): string {
  const made = toJSONSchema(recipeFile, {
    io: 'input',
    target: 'draft-2020-12',
    // Written here because zod leaves examples and defaults out of the input side of a transform.
    override: ({ zodSchema, jsonSchema }) => Object.assign(jsonSchema, keyHelp.get(zodSchema)),
  });
  const { $schema, ...rest } = made;
  const titled = { $schema, title: 'Recipe for one batch of grain spawn', ...rest };
  return `${JSON.stringify(titled, null, 2)}\n`;
}
