import { forEachStatement } from '@curette/grammar';
import type { FileId } from '../problems/problem.ts';
import type { Checked } from './checked.ts';

/** A stretch that may be put away; its first line stays in sight, of a block in braces also the closing one. */
export interface FoldingRange {
  readonly start: number;
  readonly end: number;
  readonly sort: 'block' | 'comment' | 'use' | 'section';
}

/**
 * What may be put away: blocks, doc comments, remarks of several lines, runs of `use`, and sections. A remark with an empty line below
 * it heads a section, which goes on to the next such remark of its block, or to the end of the block. The one a file begins with heads none.
 */
export function foldingRanges(checked: Checked, id: FileId): readonly FoldingRange[] {
  const file = checked.snapshot().file(id);
  if (!file || file.trouble) return [];
  const { text, tree } = file;
  const ranges: FoldingRange[] = [];
  const blocks: Block[] = [];
  const uses: FoldingRange[] = [];
  forEachStatement(tree, ({ type, body, head, doc, length }, start) => {
    if (doc !== undefined) {
      const above = text.slice(start, start + head.start).trimEnd();
      ranges.push({ start, end: start + above.length, sort: 'comment' });
    }
    if (type === 'use') {
      const last = uses.at(-1);
      if (last && text.slice(last.end, start).trim() === '') uses[uses.length - 1] = { ...last, end: start + length };
      else uses.push({ start, end: start + length, sort: 'use' });
    }
    if (!body) return;
    const end = body.close === undefined ? start + length : start + body.close;
    ranges.push({ start: start + body.open, end, sort: 'block' });
    blocks.push({ start: start + body.open, end });
  });
  const remarks = remarksOf(text);
  ranges.push(...uses, ...remarks.map(({ start, end }): FoldingRange => ({ start, end, sort: 'comment' })));
  ranges.push(...sections(text, remarks, blocks));
  return ranges
    .filter(({ start, end }) => text.slice(start, end).includes('\n'))
    .sort((a, b) => a.start - b.start || b.end - a.end);
}

interface Block {
  readonly start: number;
  readonly end: number;
}

function sections(text: string, remarks: readonly Remark[], blocks: readonly Block[]): FoldingRange[] {
  const file: Block = { start: -1, end: text.length };
  const heads = remarks
    .filter(({ start, stands }) => stands && text.slice(0, start).trim() !== '')
    .map((remark) => ({
      ...remark,
      block: blocks.findLast(({ start, end }) => start < remark.start && remark.start < end) ?? file,
    }));
  return heads.map(({ lastLine, block }, i) => {
    const next = heads.slice(i + 1).find((other) => other.block === block);
    const inside = text.slice(lastLine, next?.start ?? block.end).trimEnd();
    return { start: lastLine, end: lastLine + inside.length, sort: 'section' };
  });
}

/** Lines of `//` that follow one another. */
interface Remark {
  readonly start: number;
  readonly end: number;
  /** where its last line begins */
  readonly lastLine: number;
  /** an empty line follows */
  readonly stands: boolean;
}

/** No text goes on over a line's end: a line that begins with `//` is a remark wherever it stands. */
function remarksOf(text: string): Remark[] {
  const remarks: Remark[] = [];
  for (const run of text.matchAll(/^[ \t]*\/\/(?!\/(?!\/)).*(?:\r?\n[ \t]*\/\/(?!\/(?!\/)).*)*/gm)) {
    const start = run.index + run[0].search(/\S/);
    const end = run.index + run[0].trimEnd().length;
    const lastLine = run.index + run[0].lastIndexOf('\n') + 1;
    remarks.push({
      start,
      end,
      lastLine: Math.max(start, lastLine),
      stands: /^[ \t]*\r?\n[ \t]*\r?\n/.test(text.slice(run.index + run[0].length, run.index + run[0].length + 200)),
    });
  }
  return remarks;
}
