/** How far a line belongs to be indented while it is typed: told from the lines around it, whatever their state. */
import { mayGoOn } from '../continuation.ts';
import { partedByCommas } from '../forms.ts';
import { lex } from '../lex.ts';
import { indentAt } from '../parse.ts';
import { Comma, DocComment, Newline } from '../tokens.ts';
import type { Container, Statement, SyntaxTree } from '../tree.ts';
import { lastStarting, type Placed } from '../walk.ts';
import { further } from './fill.ts';
import { step } from './print.ts';

/** @param at where the first word of the line stands, or will */
export function indentation(text: string, tree: SyntaxTree, at: number): number {
  const { owner, before, container } = surroundings(tree, at);
  const block = owner === undefined ? 0 : indentAt(text, owner.start + owner.statement.head.start) + step;
  return before !== undefined && goesOn(text, before, at, container) ? block + further : block;
}

/** How far the line of a `}` that was just typed belongs to be indented; undefined when it closes no block. */
export function braceIndentation(text: string, tree: SyntaxTree, brace: number): number | undefined {
  const { owner } = surroundings(tree, brace);
  if (owner === undefined || owner.statement.body?.close !== brace - owner.start) return undefined;
  return indentAt(text, owner.start + owner.statement.head.start);
}

interface Surroundings {
  /** whose block it is in; undefined outside of all */
  readonly owner: Placed | undefined;
  /** the last statement in that block that begins before */
  readonly before: Placed | undefined;
  readonly container: Container;
}

function surroundings(tree: SyntaxTree, at: number): Surroundings {
  let owner: Placed | undefined;
  let body = tree.body;
  let from = 0;
  for (;;) {
    const index = lastStarting(body.offsets, at - 1 - from);
    const statement: Statement | undefined = body.items[index];
    if (statement === undefined) return { owner, before: undefined, container: body.container };
    const start = from + (body.offsets[index] ?? 0);
    const inside = statement.body;
    const encloses =
      inside !== undefined && start + inside.open < at && (inside.close === undefined || start + inside.close >= at);
    if (!encloses) return { owner, before: { statement, start }, container: body.container };
    owner = { statement, start };
    body = inside;
    from = start;
  }
}

/** Whether a head that has no block ends in a word that leads into the next line. */
function goesOn(text: string, { statement, start }: Placed, at: number, container: Container): boolean {
  if (statement.body !== undefined) return false;
  const last = lex(text.slice(start, at)).tokens.findLast(
    ({ tokenType }) => tokenType !== Newline && tokenType !== DocComment,
  );
  return mayGoOn(last) && !(last?.tokenType === Comma && partedByCommas(container));
}
