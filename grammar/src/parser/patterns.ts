/** Slots of actions, and the patterns by which rules look for steps. */
import type { IToken } from 'chevrotain';
import { Article, Describing, In, LParen, Named, Preposition, Protocol, RParen, Visit } from '../tokens.ts';
import type { Name, Pattern, Scope, Slot } from '../tree.ts';
import { quantityNames } from '../words.ts';
import { ExpressionParser } from './expressions.ts';

export abstract class PatternParser extends ExpressionParser {
  /** `(graft g) into (site s)`: everything up to what is no slot */
  protected slots = this.RULE('slots', (): Slot[] => {
    const slots: Slot[] = [];
    this.MANY({ GATE: () => this.slotAhead(), DEF: () => slots.push(this.SUBRULE(this.slot)) });
    return slots;
  });

  /** `in a visit` and `in the protocol` look like a preposition, but no slot follows. */
  private slotAhead(): boolean {
    return !(this.LA(1).tokenType === In && this.LA(2).tokenType === Article);
  }

  protected slot = this.RULE('slot', (): Slot => {
    let preposition: Name | undefined;
    let inner: Omit<Slot, 'start' | 'end' | 'preposition'> = {
      optional: false,
      many: false,
      kind: undefined,
      name: undefined,
    };
    let start = 0;
    this.OR([
      {
        ALT: () => {
          preposition = this.named(this.CONSUME(Preposition));
          start = preposition.start;
          const brackets = this.OPTION(() => this.SUBRULE(this.slotBrackets));
          if (brackets === undefined) this.lack('a kind in brackets, such as "(material m)",');
          else inner = brackets;
        },
      },
      {
        ALT: () => {
          start = this.from(this.LA(1));
          inner = this.SUBRULE2(this.slotBrackets);
        },
      },
    ]);
    return { start, end: this.end(), preposition, ...inner };
  });

  protected slotBrackets = this.RULE('slotBrackets', (): Omit<Slot, 'start' | 'end' | 'preposition'> => {
    const start = this.from(this.CONSUME(LParen));
    const words: IToken[] = [];
    this.MANY(() => words.push(this.CONSUME(Describing)));
    const closed = this.OPTION(() => this.CONSUME(RParen)) !== undefined;
    if (!closed) this.lack('")"');
    else if (words.length === 0) this.misfit({ start, end: this.end() }, 'a kind between the brackets');
    return this.slotWords(words);
  });

  private slotWords(words: readonly IToken[]): Omit<Slot, 'start' | 'end' | 'preposition'> {
    let at = 0;
    const word = (offset: number): string | undefined => words[at + offset]?.image;
    const optional = word(0) === 'optional' && words.length > 1;
    if (optional) at++;
    const many = word(0) === 'one' && word(1) === 'or' && word(2) === 'more';
    if (many) at += 3;
    const length = longestQuantity(words.slice(at));
    const kind = length > 0 ? this.joined(words.slice(at, at + length)) : undefined;
    const name = words[at + length];
    const rest = words[at + length + 1];
    const last = words.at(-1);
    if (rest !== undefined && last !== undefined) {
      this.misfit({ start: this.from(rest), end: this.to(last) }, 'one kind and one name between the brackets');
    }
    return { optional, many, kind, name: name && this.named(name) };
  }

  /** Several words as one name, its text with single spaces. */
  protected joined(words: readonly IToken[]): Name | undefined {
    const [first, ...more] = words;
    if (first === undefined) return undefined;
    if (more.length === 0) return this.named(first);
    return {
      start: this.from(first),
      end: this.to(more.at(-1) ?? first),
      text: words.map((word) => word.image).join(' '),
    };
  }

  /** A verb with slots, or `pause NAME`. */
  protected pattern = this.RULE('pattern', (): Pattern | undefined => {
    const verb = this.OPTION(() => this.named(this.CONSUME(Named)));
    if (verb === undefined) {
      this.lack('a step such as "place (material m) on (place p)"');
    }
    let paused: Name | undefined;
    this.OPTION2({
      GATE: () => verb !== undefined && verb.text === 'pause',
      DEF: () => {
        paused = this.named(this.CONSUME2(Named));
      },
    });
    const slots = this.SUBRULE(this.slots);
    if (verb === undefined) return undefined;
    const pause = paused !== undefined;
    return { start: verb.start, end: this.end(), pause, verb: paused ?? verb, slots };
  });

  /** `in a visit`, `in the protocol` */
  protected scope = this.RULE('scope', (): Scope | undefined => {
    let scope: Scope | undefined;
    this.OPTION(() => {
      this.CONSUME(In);
      this.OPTION2(() => this.CONSUME(Article));
      this.OPTION3(() => {
        this.OR([
          {
            ALT: () => {
              this.CONSUME(Visit);
              scope = 'visit';
            },
          },
          {
            ALT: () => {
              this.CONSUME(Protocol);
              scope = 'protocol';
            },
          },
        ]);
      });
      if (scope === undefined) this.lack('"visit" or "protocol"');
    });
    return scope;
  });
}

const longNames = quantityNames.filter((name) => name.includes(' ')).map((name) => name.split(' '));

/** How many of the words are the kind: `rotational speed` is two. */
export function longestQuantity(words: readonly IToken[]): number {
  if (words.length < 2) return words.length;
  const long = longNames.find((name) => name.every((word, at) => words[at]?.image === word));
  return long?.length ?? Math.min(words.length, 1);
}
