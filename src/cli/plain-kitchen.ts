/** The first questions about the kitchen, line by line: an empty line leaves the example assumed, yes makes it the person's. */
import { confirmed, type FieldRead } from '../core/kitchen-field.ts';
import { FIRST_QUESTIONS, fieldNamed } from '../core/kitchen-fields.ts';
import { withDefaults } from '../core/kitchen.ts';
import { print } from './plain-teller.ts';
import type { World } from './world.ts';

const ASSUMED =
  'Nothing is known of your kitchen yet, so usual values are assumed. "stovehand kitchen" shows and changes them.';
const INTRO =
  'First a few questions about your kitchen. An empty line leaves the example in brackets assumed; yes says it is so; skip leaves the rest.';

/**
 * Asks them of a person at a terminal, and saves each answer as it is given. Lines that come by a pipe are
 * answers to a batch: there it is only said that values are assumed.
 */
export async function askKitchen(
  { settings }: World,
  isPerson: boolean,
  nextLine: () => Promise<string | null>,
): Promise<void> {
  if (!isPerson) return print(ASSUMED);
  print(INTRO);
  for (const field of FIRST_QUESTIONS.map(fieldNamed)) {
    if (field === null) continue;
    for (;;) {
      const { kitchen } = withDefaults(settings.values.kitchen);
      print(`${field.asks} [${field.show(kitchen)}]`);
      const line = await nextLine();
      if (line === null || line.trim() === 'skip') return void (await settings.save({ kitchenAsked: true }));
      if (line.trim() === '') break;
      const read: FieldRead = /^y(es)?$/i.test(line.trim())
        ? { ok: true, value: confirmed(field, kitchen) }
        : field.read(line, kitchen);
      if (read.ok) {
        if (read.says !== undefined) print(`- ${read.says}`);
        await settings.save({ kitchen: { ...settings.values.kitchen, ...read.value } });
        break;
      }
      print(`- Expected ${read.expected}.`);
    }
  }
  await settings.save({ kitchenAsked: true });
}
