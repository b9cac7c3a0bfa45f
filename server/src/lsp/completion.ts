import {
  InsertTextFormat,
  InsertTextMode,
  type CompletionItem as LspCompletionItem,
  MarkupKind,
} from 'vscode-languageserver';
import * as z from 'zod';
import type { Form } from '../ide/completion/form.ts';
import type { CompletionItem, ItemSort } from '../ide/completion/items.ts';
import { type Completion, completion, withoutForm } from '../ide/completion.ts';
import type { Session } from './session.ts';
import { toCompletionKind, toRange } from './to-lsp.ts';

/** Which item of which answer somebody wants to read more of. */
const asked = z.object({ answer: z.number(), at: z.number() });

/**
 * Answers what may be written at the cursor. What is told of an item beyond its line is made when it is asked for; only the last answer
 * is kept for that.
 */
export function answerCompletion(session: Session): void {
  const { connection, guard, workspace, client } = session;
  const shown = { ...workspace, teeth: session.toothNumbers };
  let last: { readonly answer: number; readonly completion: Completion } | undefined;
  let answer = 0;

  connection.onCompletion(({ textDocument: { uri }, position }, token) =>
    guard.answer('completion', token, () => {
      const id = session.idOf(uri);
      const lines = session.linesOf(id);
      const full = completion(shown, id, lines.offsetAt(position), () => session.neighbours(id));
      const found = client.snippets ? full : { ...full, items: full.items.flatMap(withoutForm) };
      answer += 1;
      last = { answer, completion: found };
      const range = toRange(lines, found.typed);
      return found.items.map((item, at): LspCompletionItem => {
        const { label, sort, detail, form } = item;
        return {
          label,
          kind: toCompletionKind(sort),
          ...(detail === undefined ? {} : { detail }),
          ...(client.labelDetails && detail !== undefined ? { labelDetails: { description: detail } } : {}),
          sortText: String(at).padStart(4, '0'),
          ...(/[^\p{L}\d_]/u.test(label) ? { filterText: filterWords(label) } : {}),
          textEdit: { range, newText: label },
          ...written(item, form, range),
          ...(client.commitCharacters ? committedBy(sort, form) : {}),
          data: { answer, at },
        };
      });
    }),
  );

  connection.onCompletionResolve((item, token) =>
    guard.answer('what is told of an item', token, () => {
      const { data } = asked.safeParse(item.data);
      const found = data && data.answer === last?.answer ? last.completion.items[data.at] : undefined;
      const markdown = found && last ? last.completion.tell(found) : '';
      return markdown === '' ? item : { ...item, documentation: { kind: MarkupKind.Markdown, value: markdown } };
    }),
  );
}

/** Signs that are no letters are no help in finding: `fill … with …` is found by "fill with". */
function filterWords(label: string): string {
  const words = label.replace(/[^\p{L}\d_./%°µ[\]-]+/gu, ' ').trim();
  return words === '' ? label : words;
}

function written(
  { label }: CompletionItem,
  form: Form | undefined,
  range: LspCompletionItem['textEdit'] extends infer E ? (E extends { range: infer R } ? R : never) : never,
): Partial<LspCompletionItem> {
  if (!form) return { textEdit: { range, newText: label } };
  return {
    insertTextFormat: InsertTextFormat.Snippet,
    insertTextMode: InsertTextMode.adjustIndentation,
    textEdit: { range, newText: toSnippet(form) },
  };
}

/** The form in the editor's own notation for places to be filled in. */
export function toSnippet(form: Form): string {
  return form
    .map((part) => {
      if (typeof part === 'string') return part.replace(/[\\$]/g, '\\$&');
      const { stop, text, choices } = part;
      if (choices.length > 0) return `\${${stop}|${choices.map((one) => one.replace(/[\\,|$}]/g, '\\$&')).join(',')}|}`;
      return text === '' ? `$${stop}` : `\${${stop}:${text.replace(/[\\$}]/g, '\\$&')}}`;
    })
    .join('');
}

/** A dot behind a thing begins one of its properties; behind anything else a sign may still belong to the word that is being typed. */
function committedBy(sort: ItemSort, form: Form | undefined): Pick<LspCompletionItem, 'commitCharacters'> {
  return (sort === 'thing' || sort === 'slot') && !form ? { commitCharacters: ['.'] } : {};
}
