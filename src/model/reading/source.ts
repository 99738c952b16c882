import { type Document, LineCounter, parseDocument } from 'yaml';
import type { Issue, IssueDetails, Place } from '../issue.ts';
import { locateFault } from './yaml-faults.ts';

/** A plan file as YAML nodes, with the way from a position in the text to a line and column. */
export interface Source {
  readonly document: Document;
  readonly text: string;
  readonly placeAt: (offset: number) => Place;
}

/** A plan of a thousand orders is well below this. */
const MOST_CHARACTERS = 1_000_000;

/** All but tabs, line ends and what YAML 1.2 (section 5.1) calls printable; and signs that print nothing or turn the line round. */
const UNPRINTABLE =
  /[^\t\n\r\u0020-\u007e\u0085\u00a0-\ufefe\uff00-\uffff]|[\u200b\u200e\u200f\u202a-\u202e\u2060\u2066-\u2069]/;

/**
 * Reads the text as YAML 1.2 in which every value stays the text that was written: no `1:30`, `0x10` or `yes` turns
 * into something else on the way. Text that is no YAML gives its first fault only, since later ones follow from it.
 */
export function readSource(
  text: string,
  file: string,
): { readonly source?: Source; readonly issues: readonly Issue[] } {
  // A byte-order mark at the very start only tells the encoding; some editors write it.
  const body = text.startsWith('\ufeff') ? text.slice(1) : text;
  const unreadable = faultOfText(body, file);
  if (unreadable !== undefined) return { issues: [unreadable] };
  const lines = new LineCounter();
  const document = parseDocument(body, {
    schema: 'failsafe',
    version: '1.2',
    lineCounter: lines,
    prettyErrors: false,
    stringKeys: true,
    logLevel: 'error',
  });
  const placeAt = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { file, line: Math.max(1, line), column: Math.max(1, col) };
  };
  // Doubled keys leave the tree whole and are told apart later, with the line of the first.
  const first = document.errors.find((error) => error.code !== 'DUPLICATE_KEY');
  if (first === undefined) return { source: { document, text: body, placeAt }, issues: [] };
  const { fault, offset } = locateFault(first, body);
  const place = placeAt(offset);
  const line = body.split('\n')[place.line - 1]?.trim() ?? '';
  const details = { found: shortened(line), fault };
  return { issues: [{ code: 'yaml-syntax', severity: 'error', path: [], place, details }] };
}

function faultOfText(text: string, file: string): Issue | undefined {
  const issue = (fault: IssueDetails['not-text']['fault'], offset: number, found: string): Issue => {
    const before = text.slice(0, offset).split('\n');
    const place = { file, line: before.length, column: before[before.length - 1].length + 1 };
    return { code: 'not-text', severity: 'error', path: [], place, details: { fault, found } };
  };
  if (text.length > MOST_CHARACTERS) return issue('too-large', 0, `${text.length} characters`);
  const replaced = text.indexOf('\ufffd');
  if (replaced >= 0) return issue('encoding', replaced, '\ufffd');
  const control = text.search(UNPRINTABLE);
  if (control >= 0) return issue('control-character', control, codePointName(text, control));
  const nothing = text.split('\n').every((line) => /^\s*(?:#.*|---\s*|\.\.\.\s*)?$/.test(line));
  return nothing ? issue('empty', 0, '') : undefined;
}

function codePointName(text: string, offset: number): string {
  return `U+${text.charCodeAt(offset).toString(16).toUpperCase().padStart(4, '0')}`;
}

/** Long enough to recognise the place, short enough for one line. */
export function shortened(text: string): string {
  const oneLine = text.replace(/\s+/g, ' ');
  return oneLine.length <= 60 ? oneLine : `${oneLine.slice(0, 57)}...`;
}
