/** Complaints of the YAML reader in a grower's words. */

import type { ErrorCode } from 'yaml';

const WORDS: Partial<Record<ErrorCode, string>> = {
  TAB_AS_INDENT: 'Indent with spaces, not with tabs.',
  BAD_INDENT:
    'The indentation does not match the lines around it; keys that belong together start in the same column.',
  MULTIPLE_DOCS: 'A recipe file holds one document; remove the "---" and what follows.',
  MISSING_CHAR: 'Something is missing here: a space after the colon, a closing quote or a closing bracket.',
  MULTILINE_IMPLICIT_KEY: 'A key and its colon must be on one line; is a colon missing?',
  BLOCK_AS_IMPLICIT_KEY:
    'Only one "key: value" fits on a line; put quotes around a value that holds a colon.',
  KEY_OVER_1024_CHARS: 'This key is far too long; is a colon missing?',
  BAD_DQ_ESCAPE: 'This backslash sequence is not known; use single quotes, or write a double backslash.',
  BAD_SCALAR_START: 'A value cannot begin with this character; put it in quotes.',
  BAD_ALIAS: 'A recipe has no use for "*" references; put a text that begins with "*" in quotes.',
  BAD_DIRECTIVE: 'A line cannot begin with "%" here; put a text that begins with "%" in quotes.',
  TAG_RESOLVE_FAILED: 'A recipe has no use for "!" tags; put a text that begins with "!" in quotes.',
  UNEXPECTED_TOKEN: 'This text is in the wrong place; expected a line of the form "key: value".',
};

/** One sentence for a code of the YAML reader. */
export const syntaxWords = (code: ErrorCode): string =>
  WORDS[code] ?? 'This cannot be read; expected lines of the form "key: value".';
