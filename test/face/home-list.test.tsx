import { expect, it } from 'vitest';
import { sampleRecipe } from '../help/batch-kit.ts';
import { mountApp } from '../help/mount.tsx';
import { handServices, RYE } from '../help/services.ts';

it('recipes of the same name are told apart by their files, others keep to their names', async () => {
  const recipe = sampleRecipe();
  const services = handServices({
    recipes: [
      { ...RYE, name: 'mine', own: true },
      RYE,
      { name: 'oats', own: true, recipe: { ...recipe, name: 'Oats' }, problems: [] },
    ],
  });
  const app = await mountApp({ screen: 'home', says: null }, { columns: 80, rows: 24, services });
  await app.until('Oats');
  const text = app.lines().join('\n');
  expect(text).toContain(`${recipe.name} [mine]`);
  expect(text).toContain(`${recipe.name} [rye-bags]`);
  expect(text).not.toContain('[oats]');
});
