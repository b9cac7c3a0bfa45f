/** Slots of actions, and the patterns by which rules look for steps. */
import type { IToken } from 'chevrotain';
import {
  Article,
  Describing,
  In,
  Is,
  LParen,
  Named,
  Of,
  Or,
  Preposition,
  Protocol,
  RParen,
  Visit,
  Where,
} from '../tokens.ts';
import type { Expr, Name, Pattern, Scope, Slot } from '../tree.ts';
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

  /** A step and what it is asked to be like: `cut (tissue t) where t.depth > 4 mm`. */
  protected patternWhere = this.RULE('patternWhere', (): Pattern | undefined => {
    const first = this.SUBRULE(this.pattern);
    const others: Pattern[] = [];
    this.MANY(() => {
      this.CONSUME(Or);
      const other = this.SUBRULE2(this.pattern);
      if (other !== undefined) others.push(other);
    });
    const pattern = first && others.length > 0 ? { ...first, end: this.end(), others } : first;
    const where = this.OPTION((): Expr | undefined => {
      this.CONSUME(Where);
      return this.SUBRULE(this.condition, { ARGS: ['a condition'] });
    });
    return pattern && where ? { ...pattern, where } : pattern;
  });

  /** The same where `and` comes next: a condition of several parts stands in brackets. */
  protected patternWhereOne = this.RULE('patternWhereOne', (): Pattern | undefined => {
    const pattern = this.SUBRULE(this.pattern);
    const where = this.OPTION((): Expr | undefined => {
      this.CONSUME(Where);
      const condition = this.OPTION2(() => this.SUBRULE(this.negation));
      if (condition === undefined) this.lack('a condition');
      return condition;
    });
    return pattern && where ? { ...pattern, where } : pattern;
  });

  /** A verb with slots, `pause NAME`, `verify PROPERTY of (THING)`, `record WHAT of (THING)`, `finding NAME is VALUE or VALUE`. */
  protected pattern = this.RULE('pattern', (): Pattern | undefined => {
    const first = this.OPTION(() => this.named(this.CONSUME(Named)));
    if (first === undefined) {
      this.lack('a step such as "place (material m) on (place p)"');
    }
    const sort = sortOf(first?.text);
    let named: Name | undefined;
    this.OPTION2({
      GATE: () => sort !== 'step' && sort !== 'stop' && this.LA(1).tokenType !== Of,
      DEF: () => {
        named = this.named(this.CONSUME2(Named));
      },
    });
    let slots: Slot[] = [];
    this.OPTION3({
      GATE: () => sort === 'verify' || sort === 'record',
      DEF: () => {
        const of = this.named(this.CONSUME(Of));
        const brackets = this.OPTION4(() => this.SUBRULE(this.slotBrackets));
        if (brackets === undefined) this.lack('a kind in brackets, such as "(material m)",');
        else slots = [{ start: of.start, end: this.end(), preposition: of, ...brackets }];
      },
    });
    let values: readonly Name[] = [];
    this.OPTION5({
      GATE: () => sort === 'finding',
      DEF: () => {
        this.CONSUME(Is);
        values = this.SUBRULE(this.anyOfThese);
      },
    });
    const more = this.SUBRULE(this.slots);
    if (first === undefined) return undefined;
    if (sort !== 'step' && sort !== 'stop' && named === undefined) this.lack(MISSING[sort]);
    else if (sort === 'finding' && values.length === 0) this.lack('"is" and what is found');
    else if (sort === 'verify' && slots.length === 0) this.lack('"of" and a kind in brackets');
    const verb = sort === 'step' || sort === 'stop' ? first : named;
    const all = sort === 'step' ? more : slots;
    return { start: first.start, end: this.end(), sort, verb, slots: all, values, where: undefined, others: [] };
  });

  /** `thin or lost` */
  protected anyOfThese = this.RULE('anyOfThese', (): Name[] => {
    const values: Name[] = [];
    const add = (value: Name | undefined): void => {
      if (value !== undefined) values.push(value);
    };
    add(this.SUBRULE(this.name, { ARGS: ['what is found'] }));
    this.MANY({
      GATE: () => sortOf(this.LA(2).image) === 'step' && this.LA(3).tokenType !== LParen,
      DEF: () => {
        this.CONSUME(Or);
        add(this.SUBRULE2(this.name, { ARGS: ['what is found'] }));
      },
    });
    return values;
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

const MISSING = {
  pause: 'the name of a pause',
  verify: 'what is measured',
  record: 'what is recorded',
  finding: 'the name of a finding',
} as const;

function sortOf(word: string | undefined): Pattern['sort'] {
  return word === 'pause' || word === 'verify' || word === 'record' || word === 'finding' || word === 'stop'
    ? word
    : 'step';
}

const longNames = quantityNames.filter((name) => name.includes(' ')).map((name) => name.split(' '));

/** How many of the words are the kind: `rotational speed` is two. */
export function longestQuantity(words: readonly IToken[]): number {
  if (words.length < 2) return words.length;
  const long = longNames.find((name) => name.every((word, at) => words[at]?.image === word));
  return long?.length ?? Math.min(words.length, 1);
}
