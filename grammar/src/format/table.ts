/** Lines below each other that form a table, and the blocks that fit on the lines of their heads. */
import { textOf, widest } from './fill.ts';
import { inlineText } from './inline.ts';
import type { Line, StatementLine } from './lines.ts';

export interface Table {
  /** how wide the left column is */
  readonly column: number;
  /** lines with something in both columns */
  readonly rows: ReadonlySet<Line>;
  /** lines whose block stands on the line of its head */
  readonly inline: ReadonlySet<Line>;
}

/** @param lines with no blank line between them */
export function tableOf(lines: readonly Line[], indent: number): Table {
  const statements = lines.filter((line) => line.type === 'statement' && !isBroken(line)) as StatementLine[];
  const inline = new Set<Line>(
    statements.filter(({ block, words }) => {
      if (block?.inline !== true) return false;
      // An empty block stands nowhere else.
      return block.lines.length === 0 || indent + textOf(words).length + 1 + inlineText(block).length <= widest;
    }),
  );
  let rows = statements.filter((line) => line.key > 0 && (line.words.length > line.key || inline.has(line)));
  // A line that only the column would make too long stands outside the table, which is perhaps narrower without it.
  for (;;) {
    const column = rows.reduce((most, row) => Math.max(most, keyWidth(row)), 0);
    const fitting = rows.filter((row) => {
      const alone = indent + width(row, inline.has(row));
      return alone > widest || alone + column - keyWidth(row) <= widest;
    });
    if (fitting.length === rows.length) return { column, rows: new Set<Line>(rows), inline };
    rows = fitting;
  }
}

/** A comment between its words breaks it, or words that must not meet. */
function isBroken({ words }: StatementLine): boolean {
  return words.some(({ comments, parted }) => comments.length > 0 || parted);
}

function keyWidth({ words, key }: StatementLine): number {
  return textOf(words.slice(0, key)).length;
}

/** Of the whole line, with what of its block stands on it. */
function width({ words, block }: StatementLine, inline: boolean): number {
  return textOf(words).length + (block === undefined ? 0 : inline ? 1 + inlineText(block).length : ' {'.length);
}
