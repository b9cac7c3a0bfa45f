/** How units are written. */
import type { IToken, TokenType } from 'chevrotain';
import { lex } from '../lex.ts';
import { Content, Dot, NumberWord, UnitEnd, UnitStart } from '../tokens.ts';

/** How many words from here on are one unit, as it stands behind a number; 0 if none is. */
export function unitLength(words: readonly { readonly token: IToken }[], at: number): number {
  if (!isA(words[at]?.token, UnitStart)) return 0;
  let end = at + 1;
  for (;;) {
    if (isA(words[end]?.token, UnitEnd)) end++;
    else if (words[end]?.token.tokenType === Dot && isA(words[end + 1]?.token, Content)) end += 2;
    else return end - at;
  }
}

/** Remembers its answers. A spelling that a line can not hold (`mg/[lb_av]`) is not used. */
export function speller(spell: (unit: string) => string): (unit: string) => string {
  const known = new Map<string, string>();
  return (unit) => {
    let spelling = known.get(unit);
    if (spelling === undefined) {
      const asked = spell(unit);
      spelling = isUnit(asked) ? asked : unit;
      known.set(unit, spelling);
    }
    return spelling;
  };
}

function isUnit(spelling: string): boolean {
  const words = lex(`1 ${spelling}`).tokens.map((token) => ({ token }));
  return words[0]?.token.tokenType === NumberWord && words.length > 1 && unitLength(words, 1) === words.length - 1;
}

function isA(token: IToken | undefined, category: TokenType): boolean {
  return token !== undefined && category.categoryMatchesMap?.[token.tokenTypeIdx] === true;
}
