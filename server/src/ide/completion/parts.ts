import type { Statement } from '@curette/grammar';
import { protocolNamed } from '../surroundings.ts';
import type { Context } from './context.ts';
import { expressionItems } from './expressions.ts';
import { type CompletionItem, item, wordItems } from './items.ts';
import type { Word } from './line.ts';
import { groundItems } from './steps.ts';

/** What may be written at one place. */
export type Items = readonly CompletionItem[];

/**
 * In a line of conditions parted by commas, with its reason and source behind.
 * @param written the words of the conditions
 * @param rest the words behind the line's first
 */
export function conditionItems(context: Context, written: readonly Word[], rest: readonly Word[]): Items {
  if (rest.length === 0 && ['contraindicated', 'caution'].includes(context.line.words[0]?.text ?? ''))
    return wordItems(['when']);
  if (rest.some(({ text }) => text === 'because' || text === 'source')) return groundItems(context, rest);
  const since = written.map(({ text }) => text).lastIndexOf(',');
  const offered = expressionItems(context, written.slice(since + 1));
  return written.length > since + 2 ? [...offered, ...groundItems(context, rest)] : offered;
}

/** Protocols that this file can name, the one around left out. */
export function protocolItems(context: Context): CompletionItem[] {
  const own = context.line.owners[0]?.statement;
  return context.module.visible.flatMap((scope) =>
    [...scope.protocols].flatMap((name) => {
      const declared = protocolNamed(context.checked, context.module, name);
      return declared?.statement === own ? [] : item('protocol', name, declared?.statement.label?.value);
    }),
  );
}

/** Words that may begin a line here: those said once and already said are left out. */
export function notYet<Word extends { readonly word: string }>(
  words: readonly Word[],
  others: readonly Statement[],
  often: readonly string[],
): readonly Word[] {
  const said = new Set(others.map(({ type }) => type as string));
  return words.filter(({ word }) => {
    const [first = ''] = word.split(' ');
    return often.includes(first) || !said.has(first === 'source' ? 'source reference' : first);
  });
}
