/** The tree of a file against the shape of the schema: which keys are known, and what each may hold. */

import type * as z from 'zod/mini';
import { excerpt, type Report } from './problem.ts';
import type { Entry, MapNode, TreeNode } from './tree.ts';

type Schema = z.core.$ZodType;
type Shape = Readonly<Record<string, Schema>>;

/** Plain input for the schema, in which only known keys with values of the right kind are left. */
export interface Input {
  [key: string]: string | Input;
}

interface Accepts {
  readonly text: boolean;
  readonly keys: Shape | null;
}

/** What a schema takes: a text, keys below, or either. */
export function accepts(schema: Schema): Accepts {
  const { def } = (schema as z.core.$ZodTypes)._zod;
  if (def.type === 'optional') return accepts(def.innerType);
  if (def.type === 'object') return { text: false, keys: def.shape };
  if (def.type !== 'union') return { text: true, keys: null };
  const options = def.options.map(accepts);
  return {
    text: options.some(option => option.text),
    keys: options.find(option => option.keys)?.keys ?? null,
  };
}

/** Where the value (or, for a missing one, the map that lacks it) of each path is. */
export type Places = ReadonlyMap<string, { readonly entry: Entry; readonly bad: boolean }>;

/** Keeps what the schema can read; reports unknown keys and values of the wrong kind. */
export function fitToShape(root: MapNode, schema: Schema, report: Report): { input: Input; places: Places } {
  const places = new Map<string, { entry: Entry; bad: boolean }>();
  const keep = (node: MapNode, shape: Shape, path: string): Input => {
    const input: Input = {};
    for (const entry of node.entries) {
      const known = Object.hasOwn(shape, entry.key) ? shape[entry.key] : undefined;
      if (!known) {
        report(entry.keyStart, entry.keyEnd, unknownKey(entry.key, Object.keys(shape), path));
        continue;
      }
      const at = path + entry.key;
      const { text, keys } = accepts(known);
      const { value } = entry;
      const usable = (value.kind === 'text' && text) || (value.kind === 'map' && keys !== null);
      places.set(at, { entry, bad: !usable });
      if (value.kind === 'text' && text) input[entry.key] = value.text;
      else if (value.kind === 'map' && keys) input[entry.key] = keep(value, keys, `${at}.`);
      else wrongKind(value, entry, keys, report);
    }
    return input;
  };
  const { keys } = accepts(schema);
  return { input: keys ? keep(root, keys, '') : {}, places };
}

function wrongKind(value: TreeNode, entry: Entry, keys: Shape | null, report: Report): void {
  if (value.kind === 'bad') return;
  const [start, end] = value.end > value.start ? [value.start, value.end] : [entry.keyStart, entry.keyEnd];
  const says = keys
    ? `${entry.key}: expected keys of its own, indented below: ${Object.keys(keys).join(', ')}.`
    : `${entry.key}: expected one value on the same line, and found keys below it.`;
  report(start, end, says);
}

function unknownKey(key: string, known: readonly string[], path: string): string {
  const near = nearest(key, known);
  const where = path === '' ? '' : ` in ${path.slice(0, -1)}`;
  const advice = near === null ? `the keys here are ${known.join(', ')}` : `did you mean "${near}"?`;
  return `There is no key "${excerpt(key, 40)}"${where}; ${advice}${near === null ? '.' : ''}`;
}

/** The known key fewest edits away, if few enough to be a slip; case, dashes and underscores do not count. */
export function nearest(key: string, known: readonly string[]): string | null {
  const plain = key
    .slice(0, 40)
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
    .trim();
  let best: string | null = null;
  let fewest = Math.max(2, Math.floor(plain.length / 3)) + 1;
  for (const candidate of known) {
    const edits = editDistance(plain, candidate);
    if (edits < fewest && edits < candidate.length) [best, fewest] = [candidate, edits];
  }
  return best;
}

/** Levenshtein distance, row by row. */
function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (const [index, letter] of [...a].entries()) {
    const next = [index + 1];
    for (let column = 0; column < b.length; column += 1)
      next.push(
        Math.min(
          (next[column] ?? 0) + 1,
          (row[column + 1] ?? 0) + 1,
          (row[column] ?? 0) + (letter === b[column] ? 0 : 1),
        ),
      );
    row = next;
  }
  return row.at(-1) ?? 0;
}
