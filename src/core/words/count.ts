import type { ContainerKind } from '../recipe/recipe.ts';

/** `1 bag`, `6 bags`, `1 batch`, `2 batches`: a number with its noun in the right form. */
export const countOf = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;
export const batchesText = (count: number): string => countOf(count, 'batch', 'batches');

/** A sentence that was written for any container, in the word of the batch: bag or jar. */
export const inItsWord = (says: string, kind: ContainerKind): string =>
  says.replace(/\b([Cc])ontainer/g, (_, first: string) =>
    first === 'C' ? `${kind.charAt(0).toUpperCase()}${kind.slice(1)}` : kind,
  );
