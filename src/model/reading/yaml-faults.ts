import type { YAMLError } from 'yaml';
import type { YamlFault } from '../issue.ts';

/** What to tell of a YAML error: the kind of fault, and the offset where a person should look. */
export interface LocatedFault {
  readonly fault: YamlFault;
  readonly offset: number;
}

const FAULTS: Readonly<Record<string, YamlFault>> = {
  TAB_AS_INDENT: 'tab',
  BAD_INDENT: 'indent',
  BLOCK_AS_IMPLICIT_KEY: 'two-colons',
  BLOCK_IN_FLOW: 'unclosed',
  MULTILINE_IMPLICIT_KEY: 'no-colon',
  BAD_SCALAR_START: 'reserved-sign',
  MULTIPLE_DOCS: 'second-document',
};

/** Sorts an error of the YAML library by what the writer did. */
export function locateFault(error: YAMLError, text: string): LocatedFault {
  // The library may point at the blank lines before the fault.
  const offset = error.pos[0] + Math.max(0, text.slice(error.pos[0]).search(/\S/));
  const lineStart = text.lastIndexOf('\n', offset - 1) + 1;
  if (/^ *\t/.test(text.slice(lineStart))) return { fault: 'tab', offset: lineStart };
  // A list entry where none may stand was moved to the left or right of its list.
  if (/^-\s/.test(text.slice(offset))) return { fault: 'indent', offset };
  // How deep the library gets hangs on the stack; where we point must not.
  if (error.code === 'RESOURCE_EXHAUSTION') return { fault: 'too-deep', offset: deepBracket(text) ?? offset };
  if (error.code === 'MISSING_CHAR') return missingSign(error, text, offset);
  if (error.code === 'UNEXPECTED_TOKEN' && /["']\s*$/.test(text.slice(lineStart, offset))) {
    return { fault: 'after-quote', offset };
  }
  if (error.code === 'BAD_INDENT' && /flow/i.test(error.message)) {
    // The bracket that was never closed says more than the line where that came out.
    const sign = error.message.includes('}') ? '{' : '[';
    return { fault: 'unclosed', offset: Math.max(0, text.lastIndexOf(sign, error.pos[0])) };
  }
  return { fault: FAULTS[error.code] ?? 'other', offset };
}

/** Deeper than any key of a plan file lies. */
export const DEEPEST = 16;

function deepBracket(text: string): number | undefined {
  let depth = 0;
  for (const { 0: sign, index } of text.matchAll(/[[{}\]]/g)) {
    depth += sign === '[' || sign === '{' ? 1 : -1;
    if (depth > DEEPEST) return index;
  }
  return undefined;
}

function missingSign(error: YAMLError, text: string, offset: number): LocatedFault {
  const quote = /closing (["'])quote/.exec(error.message)?.[1];
  // Any later quote would have closed it, so the last one opened it.
  if (quote !== undefined) return { fault: 'unclosed', offset: Math.max(0, text.lastIndexOf(quote, offset)) };
  if (/map values|colon/i.test(error.message)) return { fault: 'no-colon', offset };
  if (/indicator/i.test(error.message)) return { fault: 'indent', offset };
  return { fault: 'unclosed', offset };
}
