import { AnyWord, Bound, By, Comma, SourceWord, Takes, Up } from '../tokens.ts';
import type {
  ByStatement,
  Expr,
  FindingValueStatement,
  ItemStatement,
  MakesStatement,
  NeedsStatement,
  SourceRefStatement,
  TakesStatement,
  UsesUpStatement,
  ValueStatement,
} from '../tree.ts';
import { KindParser } from './kinds.ts';

export abstract class ActionParser extends KindParser {
  /** `soak 10..60 min source common_practice`, `tooth site`, `needles 1, 2` */
  valueLine = this.RULE('valueLine', (): ValueStatement => {
    const name = this.named(this.CONSUME(AnyWord));
    const values: Expr[] = [];
    this.OPTION(() => values.push(this.SUBRULE(this.sum)));
    this.MANY(() => {
      this.CONSUME(Comma);
      const next = this.OPTION2(() => this.SUBRULE2(this.sum));
      if (next === undefined) this.lack('a value');
      else values.push(next);
    });
    if (values.length === 0 && !this.block) this.lack('a value');
    this.SUBRULE(this.grounds);
    const { id, length, head, doc, flaws, body } = this.base;
    const { because, source } = this;
    return { id, length, head, doc, flaws, body, type: 'value', name, values, because, source };
  });

  /** `needs g wetted for g.soak, s debrided because "…"` */
  needsLine = this.RULE('needsLine', (): NeedsStatement => {
    this.CONSUME(AnyWord);
    const conditions: Expr[] = [];
    const add = (condition: Expr | undefined): void => {
      if (condition !== undefined) conditions.push(condition);
    };
    add(this.SUBRULE(this.condition, { ARGS: ['a condition'] }));
    this.MANY(() => {
      this.CONSUME(Comma);
      add(this.SUBRULE2(this.condition, { ARGS: ['a condition'] }));
    });
    this.SUBRULE(this.grounds);
    const { id, length, head, doc, flaws, body } = this.base;
    const { because, source } = this;
    return { id, length, head, doc, flaws, body, type: 'needs', conditions, because, source };
  });

  /** `makes g packed, s filled` */
  makesLine = this.RULE('makesLine', (): MakesStatement => {
    this.CONSUME(AnyWord);
    const effects: MakesStatement['effects'][number][] = [];
    const add = (effect: MakesStatement['effects'][number] | undefined): void => {
      if (effect !== undefined) effects.push(effect);
    };
    add(this.SUBRULE(this.effect));
    this.MANY(() => {
      this.CONSUME(Comma);
      add(this.SUBRULE2(this.effect));
    });
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'makes', effects };
  });

  protected effect = this.RULE('effect', (): MakesStatement['effects'][number] | undefined => {
    const subject = this.OPTION(() => this.SUBRULE(this.path));
    if (subject === undefined) {
      this.lack('a thing and its new state');
      return undefined;
    }
    return { subject, state: this.SUBRULE(this.name, { ARGS: ['the new state'] }) };
  });

  /** `uses up c at least g.amount`, `uses up d v`, `uses up g` */
  usesUpLine = this.RULE('usesUpLine', (): UsesUpStatement => {
    this.CONSUME(AnyWord);
    if (this.OPTION(() => this.CONSUME(Up)) === undefined) this.lack('"up"');
    const thing = this.OPTION2(() => this.SUBRULE(this.path));
    if (thing === undefined) this.lack('a thing');
    let bound: UsesUpStatement['bound'];
    this.OPTION3(() => {
      bound = this.CONSUME(Bound).tokenType.name === 'at most' ? 'at most' : 'at least';
    });
    const amount = this.OPTION4(() => this.SUBRULE(this.sum));
    if (bound !== undefined && amount === undefined) this.lack('an amount');
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'uses up', thing, bound, amount };
  });

  /** `takes 1..2 min usually 1 min` */
  takesLine = this.RULE('takesLine', (): TakesStatement => {
    this.CONSUME(Takes);
    const duration = this.SUBRULE(this.duration);
    const usually = this.OPTION(this.usually);
    this.SUBRULE(this.grounds);
    const { id, length, head, doc, flaws, body } = this.base;
    const { because, source } = this;
    return { id, length, head, doc, flaws, body, type: 'takes', duration, usually, because, source };
  });

  byLine = this.RULE('byLine', (): ByStatement => {
    this.CONSUME(By);
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'by', roles: this.SUBRULE(this.names, { ARGS: ['a role'] }) };
  });

  sourceReferenceLine = this.RULE('sourceReferenceLine', (): SourceRefStatement => {
    this.CONSUME(SourceWord);
    const { id, length, head, doc, flaws, body } = this.base;
    return {
      id,
      length,
      head,
      doc,
      flaws,
      body,
      type: 'source reference',
      source: this.SUBRULE(this.name, { ARGS: ['the name of a source'] }),
    };
  });

  findingValueLine = this.RULE('findingValueLine', (): FindingValueStatement => {
    const name = this.named(this.CONSUME(AnyWord));
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'finding value', name, label: this.SUBRULE(this.label) };
  });

  itemLine = this.RULE('itemLine', (): ItemStatement => {
    this.CONSUME(AnyWord);
    const { id, length, head, doc, flaws, body } = this.base;
    return {
      id,
      length,
      head,
      doc,
      flaws,
      body,
      type: 'item',
      text: this.SUBRULE(this.wording, { ARGS: ['what is confirmed, in quotes,'] }),
    };
  });
}
