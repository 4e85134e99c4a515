/**
 * YAML text as a small tree of maps and texts with their places. Everything a recipe has no use for
 * (anchors, aliases, tags, lists, several documents, deep nesting) is reported and left out, so that what
 * comes after never meets it. All values stay text: "no", "1e99" and dates mean nothing here.
 */

import { Composer, type Document, isAlias, isMap, isScalar, type Node, type ParsedNode, Parser } from 'yaml';
import { excerpt, type Report } from './problem.ts';
import { syntaxWords } from './yaml-words.ts';

export interface TextNode {
  readonly kind: 'text';
  readonly text: string;
  readonly start: number;
  readonly end: number;
}
export interface MapNode {
  readonly kind: 'map';
  readonly entries: readonly Entry[];
  readonly start: number;
  readonly end: number;
}
/** Something already complained about. */
export interface BadNode {
  readonly kind: 'bad';
  readonly start: number;
  readonly end: number;
}
export type TreeNode = TextNode | MapNode | BadNode;
export interface Entry {
  readonly key: string;
  readonly keyStart: number;
  readonly keyEnd: number;
  readonly value: TreeNode;
}

/** A recipe nests two deep and has some forty keys. */
const DEEPEST = 6;
const MOST_TOKENS = 5000;

interface Token {
  readonly type?: string;
  readonly offset?: number;
  readonly value?: unknown;
  readonly items?: unknown;
}

/**
 * Counts tokens and depth without recursion; the place of the first excess, or null.
 * The composer recurses, so that depth must be known before it runs.
 */
function excess(tokens: readonly Token[]): { at: number; says: string } | null {
  const waiting: { token: Token; depth: number }[] = tokens.map(token => ({ token, depth: 0 }));
  let count = 0;
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    const { token, depth } = next;
    count += 1;
    if (depth > DEEPEST)
      return {
        at: token.offset ?? 0,
        says: 'Values are nested too deep for a recipe, which nests keys once.',
      };
    if (count > MOST_TOKENS)
      return { at: token.offset ?? 0, says: 'There are far more values here than a recipe has.' };
    const items = Array.isArray(token.items) ? token.items : [];
    for (const item of items as { key?: Token | null; value?: Token }[])
      for (const child of [item.key, item.value]) if (child) waiting.push({ token: child, depth: depth + 1 });
    if (token.type === 'document' && token.value) waiting.push({ token: token.value as Token, depth });
  }
  return null;
}

/** Reads the one document of `text`; null when there is nothing to go on with. Problems go to `report`. */
export function readTree(text: string, report: Report): { root: TreeNode; brokenAt: number } | null {
  const tokens = [...new Parser().parse(text)];
  const over = excess(tokens as Token[]);
  if (over) {
    report(over.at, over.at + 40, over.says);
    return null;
  }
  const composer = new Composer({
    schema: 'failsafe',
    uniqueKeys: false,
    merge: false,
    keepSourceTokens: false,
  });
  const documents: Document.Parsed<ParsedNode>[] = [...composer.compose(tokens, true, text.length)] as never;
  const [first, second] = documents;
  if (second) {
    const at = second.range[0];
    report(
      at,
      at + 3,
      'A recipe file holds one document; remove this line and what follows, or the "---" before it.',
    );
  }
  if (!first) return null;
  const root = nodeOf(first.contents, 0, text.length, report);
  let brokenAt = Number.POSITIVE_INFINITY;
  for (const error of [...first.errors, ...first.warnings]) {
    const [start, end] = error.pos;
    const quote = error.message.startsWith('Missing closing') ? openQuote(root, text, start) : null;
    if (quote === null) report(start, Math.max(end, start + 1), syntaxWords(error.code));
    else report(quote, text.length, 'The quote that opens here is never closed.');
    brokenAt = Math.min(brokenAt, quote ?? start);
  }
  return { root, brokenAt };
}

/** The reader notices an open quote only where the text ends; people look for it where it begins. */
function openQuote(node: TreeNode, text: string, before: number): number | null {
  if (node.kind === 'text')
    return node.start < before && /["']/.test(text[node.start] ?? '') ? node.start : null;
  const inner = node.kind === 'map' ? node.entries.map(({ value }) => openQuote(value, text, before)) : [];
  return inner.findLast(at => at !== null) ?? null;
}

function nodeOf(node: Node | null, start: number, end: number, report: Report): TreeNode {
  if (!node) return { kind: 'text', text: '', start, end: start };
  const [from, to] = node.range ?? [start, end];
  const bad = (says: string): BadNode => {
    report(from, to, says);
    return { kind: 'bad', start: from, end: to };
  };
  if (isAlias(node)) return bad('A recipe has no use for "*" references; write the value here.');
  const marked = node as { anchor?: string; tag?: string };
  if (marked.anchor !== undefined) return bad('A recipe has no use for "&" anchors; write the value alone.');
  if (marked.tag !== undefined)
    return bad('A recipe has no use for "!" tags; write the value alone, or in quotes.');
  if (isScalar(node)) return { kind: 'text', text: String(node.value ?? ''), start: from, end: to };
  if (!isMap(node)) return bad('A recipe has no lists; write one value, or keys with values indented below.');
  const entries: Entry[] = [];
  const seen = new Set<string>();
  for (const { key, value } of node.items) {
    const keyNode = key as Node | null;
    const [keyStart, keyEnd] = keyNode?.range ?? [from, from];
    const plain = isScalar(keyNode) && !keyNode.anchor && !keyNode.tag ? String(keyNode.value ?? '') : null;
    if (plain === null || plain === '') {
      report(keyStart, keyEnd, 'A key is plain words followed by a colon.');
      continue;
    }
    if (seen.has(plain))
      report(keyStart, keyEnd, `The key "${excerpt(plain)}" is here twice; keep one of them.`);
    else
      entries.push({
        key: plain,
        keyStart,
        keyEnd,
        value: nodeOf(value as Node | null, keyEnd, keyEnd, report),
      });
    seen.add(plain);
  }
  return { kind: 'map', entries, start: from, end: to };
}
