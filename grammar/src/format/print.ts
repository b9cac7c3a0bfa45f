/** Writes lines and blocks: indents them, lines tables up, breaks what is too long. */
import { fill, further, textOf, widest } from './fill.ts';
import { inlineText } from './inline.ts';
import type { Block, Line, StatementLine } from './lines.ts';
import { type Table, tableOf } from './table.ts';

/** How far a block is indented. */
export const step = 2;

/** The lines of a file, without line ends. */
export function print(file: Block): string[] {
  const out: string[] = [];
  printLines(file.lines, 0, out);
  return out;
}

function printLines(lines: readonly Line[], indent: number, out: string[]): void {
  for (const [at, run] of runs(lines).entries()) {
    if (at > 0) out.push('');
    const table = tableOf(run, indent);
    let above: StatementLine | undefined;
    for (const line of run) {
      if (line.type === 'comment') out.push(margin(indent) + line.text);
      else if (!appended(line, above, out)) printStatement(line, indent, table, out);
      above = line.type === 'comment' ? undefined : line;
    }
  }
}

/** Lines with no blank line between them. */
function runs(lines: readonly Line[]): Line[][] {
  const all: Line[][] = [];
  for (const line of lines) {
    const run = all.at(-1);
    if (run === undefined || line.blank) all.push([line]);
    else run.push(line);
  }
  return all;
}

/** Names that stood on one line stay together as far as there is room. */
function appended(line: StatementLine, above: StatementLine | undefined, out: string[]): boolean {
  const last = out.at(-1);
  if (!line.joined || above === undefined || last === undefined || !isName(line) || !isName(above)) return false;
  const longer = `${last}, ${textOf(line.words)}`;
  if (longer.length > widest) return false;
  out[out.length - 1] = longer + trailing(line);
  return true;
}

function isName({ words, block }: StatementLine): boolean {
  return words.length === 1 && block === undefined;
}

function printStatement(line: StatementLine, indent: number, table: Table, out: string[]): void {
  const { words, block, beforeBlock } = line;
  const column = table.rows.has(line) ? table.column : undefined;
  const head = (end: string): string[] => fill(words, { indent, end, column, key: line.key });
  if (block === undefined) {
    out.push(...head(''));
  } else if (table.inline.has(line)) {
    out.push(...head(` ${inlineText(block)}`));
  } else {
    if (beforeBlock.length === 0) out.push(...head(' {'));
    else {
      out.push(...head(''));
      for (const { text, own } of beforeBlock) {
        if (own) out.push(margin(indent + further) + text);
        else append(out, ` ${text}`);
      }
      out.push(`${margin(indent)}{`);
    }
    if (block.opening !== undefined) append(out, ` ${block.opening}`);
    printLines(block.lines, indent + step, out);
    out.push(`${margin(indent)}}`);
  }
  append(out, trailing(line));
}

function trailing(line: StatementLine): string {
  return line.trailing === undefined ? '' : ` ${line.trailing}`;
}

function append(out: string[], text: string): void {
  out[out.length - 1] = (out.at(-1) ?? '') + text;
}

function margin(indent: number): string {
  return ' '.repeat(indent);
}
