/**
 * One canonical layout of a file. What is written is kept word for word but for the spelling of units; only white space, commas
 * at the ends of lines, and where lines and blocks break are the formatter's. A file with anything in it that could not be read
 * is not touched.
 */
import { parse } from '../parse.ts';
import type { Flaw, SyntaxTree } from '../tree.ts';
import { forEachStatement } from '../walk.ts';
import { gather } from './gather.ts';
import { print } from './print.ts';
import { speller } from './units.ts';

export interface FormatOptions {
  /** how a unit is to be written, e.g. `ml` as `mL`; answers what it does not know as it is */
  readonly spell?: (unit: string) => string;
  /** of the text, where it is at hand */
  readonly tree?: SyntaxTree;
}

/** The text laid out; or the first thing in it that could not be read, its span counted from the start of the file. */
export type Formatted =
  | { readonly text: string; readonly refused?: undefined }
  | { readonly text?: undefined; readonly refused: Flaw };

/**
 * Pure and idempotent; the result reads as the same statements with the same comments. Line ends stay those of the file: `\r\n`
 * where it has any, otherwise `\n`.
 */
export function format(text: string, options: FormatOptions = {}): Formatted {
  const { tree = parse(text), spell = (unit) => unit } = options;
  const refused = firstFlaw(tree);
  if (refused !== undefined) return { refused };
  const mark = text.startsWith(byteOrderMark) ? byteOrderMark : '';
  const lines = print(gather(text, tree, speller(spell)));
  const lineEnd = text.includes('\r\n') ? '\r\n' : '\n';
  return { text: mark + lines.map((line) => line + lineEnd).join('') };
}

const byteOrderMark = '\ufeff';

function firstFlaw(tree: SyntaxTree): Flaw | undefined {
  let first = tree.flaws[0];
  forEachStatement(tree, (statement, start) => {
    const [flaw] = statement.flaws;
    if (flaw === undefined || (first !== undefined && first.start <= start + flaw.start)) return;
    first = { ...flaw, start: start + flaw.start, end: start + flaw.end };
  });
  return first;
}
