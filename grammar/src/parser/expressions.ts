/** Conditions and sums, loosest first: `or`, `and`, `not`, comparison, `+ -`, `* /`, values. */
import type { IToken } from 'chevrotain';
import {
  AdditiveSign,
  And,
  AnyText,
  Comma,
  ComparisonSign,
  Content,
  For,
  Is,
  LParen,
  MultiplyingSign,
  No,
  Not,
  NotEqual,
  Or,
  RelationWord,
  RParen,
  Total,
  Yes,
} from '../tokens.ts';
import type { Expr, Relation } from '../tree.ts';
import type { Alternatives } from './base.ts';
import { ValueParser } from './values.ts';

type Comparison = Extract<Expr, { type: 'compare' }>['op'];
type Arithmetic = Extract<Expr, { type: 'arithmetic' }>['op'];

export abstract class ExpressionParser extends ValueParser {
  expression = this.RULE('expression', (): Expr => {
    let left = this.SUBRULE(this.conjunction);
    this.MANY(() => {
      this.CONSUME(Or);
      const right = this.OPTION(() => this.SUBRULE2(this.conjunction));
      if (right === undefined) this.lack('a condition');
      left = { type: 'or', start: left.start, end: this.end(), left, right };
    });
    return left;
  });

  protected conjunction = this.RULE('conjunction', (): Expr => {
    let left = this.SUBRULE(this.negation);
    this.MANY(() => {
      this.CONSUME(And);
      const right = this.OPTION(() => this.SUBRULE2(this.negation));
      if (right === undefined) this.lack('a condition');
      left = { type: 'and', start: left.start, end: this.end(), left, right };
    });
    return left;
  });

  protected negation = this.RULE('negation', (): Expr => this.OR(this.negationForms));

  private negationForms: Alternatives<Expr> = [
    { ALT: () => this.SUBRULE(this.comparison) },
    {
      ALT: () => {
        const nots: number[] = [];
        this.AT_LEAST_ONE(() => nots.push(this.from(this.CONSUME(Not))));
        let inner: Expr | undefined = this.OPTION(() => this.SUBRULE2(this.comparison));
        if (inner === undefined) this.lack('a condition');
        const end = this.end();
        const [outermost = 0, ...others] = nots;
        for (const start of others.reverse()) inner = { type: 'not', start, end, operand: inner };
        return { type: 'not', start: outermost, end, operand: inner };
      },
    },
  ];

  protected comparison = this.RULE('comparison', (): Expr => {
    const left = this.SUBRULE(this.sum);
    let whole = left;
    this.OPTION(() => {
      whole = this.OR([
        { ALT: () => this.SUBRULE(this.isTail, { ARGS: [left] }) },
        { ALT: () => this.SUBRULE(this.relationTail, { ARGS: [left] }) },
        { ALT: () => this.SUBRULE(this.stateTail, { ARGS: [left] }) },
        {
          ALT: (): Expr => {
            const op = this.CONSUME(ComparisonSign).tokenType.name as Comparison;
            const right = this.SUBRULE2(this.operand);
            return { type: 'compare', start: left.start, end: this.end(), op, left, right };
          },
        },
      ]);
    });
    return whole;
  });

  /** The value behind a sign; says so when there is none. */
  protected operand = this.RULE('operand', (): Expr | undefined => {
    const value = this.OPTION(() => this.SUBRULE(this.sum));
    if (value === undefined) this.lack('a value');
    return value;
  });

  /** A condition a line needs; says so when there is none. */
  protected condition = this.RULE('condition', (what: string): Expr | undefined => {
    const condition = this.OPTION(() => this.SUBRULE(this.expression));
    if (condition === undefined) this.lack(what);
    return condition;
  });

  /** `is graft_surface`, `is not soft_tissue`, `is wetted for 10 min` */
  protected isTail = this.RULE('isTail', (subject: Expr): Expr => {
    let negated = false;
    this.OR([
      {
        ALT: () => {
          this.CONSUME(Is);
          this.OPTION(() => {
            this.CONSUME(Not);
            negated = true;
          });
        },
      },
      {
        ALT: () => {
          this.CONSUME(NotEqual);
          negated = true;
        },
      },
    ]);
    const name = this.SUBRULE(this.name, { ARGS: ['a kind, a state or a value'] });
    const time = this.SUBRULE(this.forHowLong);
    const start = this.startOf(subject);
    return { type: 'is', start, end: this.end(), subject, negated, name, for: time };
  });

  protected forHowLong = this.RULE('forHowLong', (): Expr | undefined =>
    this.OPTION(() => {
      this.CONSUME(For);
      return this.SUBRULE(this.operand);
    }),
  );

  /** `has acute_infection`, `takes antiresorptive`, `allergic to penicillin` */
  protected relationTail = this.RULE('relationTail', (subject: Expr): Expr => {
    const relation = this.CONSUME(RelationWord).tokenType.name as Relation;
    const value = this.SUBRULE(this.name, { ARGS: ['what it is'] });
    return { type: 'relation', start: this.startOf(subject), end: this.end(), relation, subject, value };
  });

  /** `wetted for g.soak` behind a thing */
  protected stateTail = this.RULE('stateTail', (subject: Expr): Expr => {
    const state = this.named(this.CONSUME(Content));
    const time = this.SUBRULE(this.forHowLong);
    if (this.RECORDING_PHASE) return subject;
    if (subject.type !== 'path') {
      this.misfit(state, 'a comparison such as "<=", "is", or the end of the line');
      return subject;
    }
    return { type: 'state', start: subject.start, end: this.end(), subject, state, for: time };
  });

  /** While the grammar is being recorded there is no subject. */
  private startOf(subject: Expr): number {
    return this.RECORDING_PHASE ? 0 : subject.start;
  }

  sum = this.RULE('sum', (): Expr => {
    let left = this.SUBRULE(this.product);
    this.MANY(() => {
      const op = this.CONSUME(AdditiveSign).image as Arithmetic;
      const right = this.OPTION(() => this.SUBRULE2(this.product));
      if (right === undefined) this.lack('a value');
      left = { type: 'arithmetic', start: left.start, end: this.end(), op, left, right };
    });
    return left;
  });

  protected product = this.RULE('product', (): Expr => {
    let left = this.SUBRULE(this.atom);
    this.MANY(() => {
      const op = this.CONSUME(MultiplyingSign).image as Arithmetic;
      const right = this.OPTION(() => this.SUBRULE2(this.atom));
      if (right === undefined) this.lack('a value');
      left = { type: 'arithmetic', start: left.start, end: this.end(), op, left, right };
    });
    return left;
  });

  protected atom = this.RULE('atom', (): Expr => this.OR(this.atomForms));

  private atomForms: Alternatives<Expr> = [
    { ALT: () => this.SUBRULE(this.amount) },
    { ALT: () => this.text(this.CONSUME(AnyText)) },
    { ALT: () => this.yesOrNo(this.CONSUME(Yes), true) },
    { ALT: () => this.yesOrNo(this.CONSUME(No), false) },
    { ALT: () => this.SUBRULE(this.totalCall) },
    { ALT: () => this.SUBRULE(this.pathOrCall) },
    { ALT: () => this.SUBRULE(this.bracketed) },
  ];

  private yesOrNo(token: IToken, value: boolean): Expr {
    return { type: 'yes or no', start: this.from(token), end: this.to(token), value };
  }

  protected bracketed = this.RULE('bracketed', (): Expr => {
    const start = this.from(this.CONSUME(LParen));
    const inner = this.SUBRULE(this.condition, { ARGS: ['a value'] });
    this.SUBRULE(this.closing);
    const end = this.end();
    // Nothing between the brackets: an empty name keeps the place.
    return inner === undefined ? { type: 'path', start, end, names: [] } : { ...inner, start, end };
  });

  protected closing = this.RULE('closing', (): void => {
    if (this.OPTION(() => this.CONSUME(RParen)) === undefined) this.lack('")"');
  });

  protected totalCall = this.RULE('totalCall', (): Expr => {
    const name = this.named(this.CONSUME(Total));
    const args = [this.SUBRULE(this.path)];
    return { type: 'call', start: name.start, end: this.end(), name, args };
  });

  protected pathOrCall = this.RULE('pathOrCall', (): Expr => {
    const path = this.SUBRULE(this.path);
    let args: Expr[] | undefined;
    this.OPTION(() => {
      this.CONSUME(LParen);
      args = this.SUBRULE(this.callArguments);
      this.SUBRULE(this.closing);
    });
    const name = this.RECORDING_PHASE ? undefined : path.names[0];
    return args === undefined || name === undefined
      ? path
      : { type: 'call', start: path.start, end: this.end(), name, args };
  });

  protected callArguments = this.RULE('callArguments', (): Expr[] => {
    const args: Expr[] = [];
    const add = (value: Expr | undefined): void => {
      if (value !== undefined) args.push(value);
    };
    add(this.SUBRULE(this.condition, { ARGS: ['a value'] }));
    this.MANY(() => {
      this.CONSUME(Comma);
      add(this.SUBRULE2(this.condition, { ARGS: ['a value'] }));
    });
    return args;
  });
}
