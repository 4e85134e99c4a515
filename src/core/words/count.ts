/** `1 bag`, `6 bags`, `1 batch`, `2 batches`: a number with its noun in the right form. */
export const countOf = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;
export const batchesText = (count: number): string => countOf(count, 'batch', 'batches');
