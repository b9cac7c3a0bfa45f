/** Lines inside kinds, entries, sources, cases, findings and actions. */
import type { IToken } from 'chevrotain';
import {
  AnyWord,
  Arrow,
  As,
  AtMost,
  Before,
  Bound,
  By,
  Colon,
  Comma,
  Content,
  DotDot,
  End,
  Lasts,
  NumberWord,
  Of,
  Or,
  Pause,
  Protocol,
  RelationWord,
  SourceWord,
  Takes,
  Then,
  TypeWord,
  Up,
  Visit,
  When,
  Within,
} from '../tokens.ts';
import type {
  ByStatement,
  ContraindicatedStatement,
  Expr,
  FindingValueStatement,
  ItemStatement,
  LastsStatement,
  MakesStatement,
  MustEndStatement,
  Name,
  NeedsStatement,
  PropertyStatement,
  PropertyType,
  QuantityNode,
  Relation,
  RelationStatement,
  ServesAsStatement,
  SourceRefStatement,
  StatesStatement,
  TakesStatement,
  UsesUpStatement,
  ValueStatement,
} from '../tree.ts';
import { quantityNames } from '../words.ts';
import { DeclarationParser } from './declarations.ts';
import { longestQuantity } from './patterns.ts';

/** `one of 11..18` names every number between, up to here. */
const mostValues = 1000;

export abstract class KindParser extends DeclarationParser {
  /** `particle : length range within 1 um..5 mm source common_practice` */
  propertyLine = this.RULE('propertyLine', (): PropertyStatement => {
    const name = this.named(this.CONSUME(AnyWord));
    let within: QuantityNode | undefined;
    this.OPTION(() => this.CONSUME(Colon));
    const value = this.SUBRULE(this.propertyType);
    this.OPTION2(() => {
      this.CONSUME(Within);
      within = this.OPTION3(() => this.SUBRULE(this.quantity));
      if (within === undefined) this.lack('the range outside which a value is a slip');
    });
    this.SUBRULE(this.grounds);
    const { id, length, head, doc, flaws, body } = this.base;
    const { because, source } = this;
    return { id, length, head, doc, flaws, body, type: 'property', name, value, within, because, source };
  });

  protected propertyType = this.RULE('propertyType', (): PropertyType | undefined => {
    const words: IToken[] = [];
    const values: Name[] = [];
    this.MANY(() => words.push(this.CONSUME(TypeWord)));
    this.OPTION(() => this.SUBRULE(this.numberValues, { ARGS: [values] }));
    this.MANY2(() => {
      this.CONSUME(Comma);
      this.OPTION2(() => {
        this.OR2([
          { ALT: () => values.push(this.named(this.CONSUME2(Content))) },
          { ALT: () => this.SUBRULE2(this.numberValues, { ARGS: [values] }) },
        ]);
      });
    });
    return this.RECORDING_PHASE ? undefined : this.resolveType(words, values);
  });

  /** `11` or `11..18` */
  protected numberValues = this.RULE('numberValues', (values: Name[]): void => {
    const low = this.CONSUME(NumberWord);
    let high = low;
    this.OPTION(() => {
      this.CONSUME(DotDot);
      this.OPTION2(() => {
        high = this.CONSUME2(NumberWord);
      });
      if (high === low) this.lack('the last number');
    });
    if (this.RECORDING_PHASE) return;
    const start = this.from(low);
    const end = this.end();
    if (high === low) {
      values.push({ start, end, text: low.image });
      return;
    }
    const from = Number(low.image);
    const to = Number(high.image);
    if (!Number.isInteger(from) || !Number.isInteger(to) || to < from || to - from >= mostValues) {
      this.misfit({ start, end }, 'two whole numbers, the smaller first');
      return;
    }
    for (let value = from; value <= to; value++) values.push({ start, end, text: String(value) });
  });

  private resolveType(words: IToken[], values: Name[]): PropertyType | undefined {
    const [first, second, third] = words;
    if (first === undefined) {
      if (values.length === 0) this.lack('what it holds, such as "length", "text" or a kind,');
      else this.misfit({ start: this.end(), end: this.end() }, '"one of" before the values');
      return undefined;
    }
    const start = this.from(first);
    const span = { start, end: this.end() };
    if ((first.image === 'one' || first.image === 'any') && second?.tokenType === Of) {
      const all = third === undefined ? values : [this.named(third), ...values];
      if (all.length === 0) this.lack('the values, with commas between,');
      this.tooMany(words, 3);
      return { form: first.image === 'one' ? 'one of' : 'any of', ...span, values: all };
    }
    const range = words.length > 1 && words.at(-1)?.image === 'range';
    const length = first.image === 'yes' ? 3 : longestQuantity(words);
    const phrase = this.joined(words.slice(0, length));
    if (phrase === undefined) return undefined;
    this.tooMany(words, range ? length + 1 : length);
    if (values.length > 0) this.misfit({ start: phrase.end, end: this.end() }, '"one of" before the values');
    const end = range ? this.end() : phrase.end;
    if (quantityNames.some((name) => name === phrase.text))
      return { form: 'quantity', start, end, dimension: phrase.text, range };
    if (phrase.text === 'size' || phrase.text === 'yes or no' || phrase.text === 'text' || phrase.text === 'number') {
      return { form: phrase.text, start, end };
    }
    return { form: 'kind', start, end: phrase.end, kind: phrase };
  }

  private tooMany(words: readonly IToken[], most: number): void {
    const extra = words[most];
    const last = words.at(-1);
    if (extra !== undefined && last !== undefined) {
      this.misfit(
        { start: this.from(extra), end: this.to(last) },
        '"range", "within", "source", "because" or the end of the line',
      );
    }
  }

  /** `states dry -> wetted -> packed, wetted -> dried_out` */
  statesLine = this.RULE('statesLine', (): StatesStatement => {
    this.CONSUME(AnyWord);
    const chains: Name[][] = [this.SUBRULE(this.chain)];
    this.MANY(() => {
      this.CONSUME(Comma);
      chains.push(this.SUBRULE2(this.chain));
    });
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'states', chains };
  });

  protected chain = this.RULE('chain', (): Name[] => {
    const states: Name[] = [];
    const add = (state: Name | undefined): void => {
      if (state !== undefined) states.push(state);
    };
    add(this.SUBRULE(this.name, { ARGS: ['a state'] }));
    this.MANY(() => {
      this.CONSUME(Arrow);
      add(this.SUBRULE2(this.name, { ARGS: ['a state'] }));
    });
    return states;
  });

  /** `wetted lasts at most soak.longest, then dried_out` */
  lastsLine = this.RULE('lastsLine', (): LastsStatement => {
    const state = this.named(this.CONSUME(AnyWord));
    this.CONSUME(Lasts);
    let then: Name | undefined;
    const bound = this.OPTION(() => this.CONSUME(AtMost));
    const atMost = this.OPTION4(() => this.SUBRULE(this.sum));
    if (bound === undefined) this.lack('"at most"');
    else if (atMost === undefined) this.lack('a time');
    this.OPTION2(() => this.CONSUME(Comma));
    this.OPTION3(() => {
      this.CONSUME(Then);
      then = this.SUBRULE(this.name, { ARGS: ['a state'] });
    });
    this.SUBRULE(this.grounds);
    const { id, length, head, doc, flaws, body } = this.base;
    const { because, source } = this;
    return { id, length, head, doc, flaws, body, type: 'lasts', state, atMost, then, because, source };
  });

  /** `must end packed or discarded by end of visit`, `… before pause sign_out` */
  mustEndLine = this.RULE('mustEndLine', (): MustEndStatement => {
    this.CONSUME(AnyWord);
    if (this.OPTION(() => this.CONSUME(End)) === undefined) this.lack('"end"');
    const states: Name[] = [];
    const add = (state: Name | undefined): void => {
      if (state !== undefined) states.push(state);
    };
    add(this.SUBRULE(this.name, { ARGS: ['a state'] }));
    this.MANY(() => {
      this.CONSUME(Or);
      add(this.SUBRULE2(this.name, { ARGS: ['a state'] }));
    });
    let by: MustEndStatement['by'];
    let pause: Name | undefined;
    this.OPTION2(() => {
      this.OR([
        {
          ALT: () => {
            by = this.SUBRULE(this.byEndOf);
          },
        },
        {
          ALT: () => {
            this.CONSUME(Before);
            if (this.OPTION3(() => this.CONSUME(Pause)) === undefined) this.lack('"pause" and its name');
            else {
              by = 'pause';
              pause = this.SUBRULE3(this.name, { ARGS: ['the name of a pause'] });
            }
          },
        },
      ]);
    });
    this.SUBRULE(this.grounds);
    const { id, length, head, doc, flaws, body } = this.base;
    const { because, source } = this;
    return { id, length, head, doc, flaws, body, type: 'must end', states, by, pause, because, source };
  });

  protected byEndOf = this.RULE('byEndOf', (): MustEndStatement['by'] => {
    let by: MustEndStatement['by'];
    this.CONSUME(By);
    this.OPTION(() => {
      this.CONSUME(End);
      this.OPTION2(() => this.CONSUME(Of));
      this.OPTION3(() => {
        this.OR([
          {
            ALT: () => {
              this.CONSUME(Visit);
              by = 'end of visit';
            },
          },
          {
            ALT: () => {
              this.CONSUME(Protocol);
              by = 'end of protocol';
            },
          },
        ]);
      });
    });
    if (by === undefined) this.lack('"end of visit" or "end of protocol"');
    return by;
  });

  servesAsLine = this.RULE('servesAsLine', (): ServesAsStatement => {
    this.CONSUME(AnyWord);
    if (this.OPTION(() => this.CONSUME(As)) === undefined) this.lack('"as"');
    const { id, length, head, doc, flaws, body } = this.base;
    return {
      id,
      length,
      head,
      doc,
      flaws,
      body,
      type: 'serves as',
      kind: this.SUBRULE(this.name, { ARGS: ['a kind'] }),
    };
  });

  /** `has acute_infection, pregnancy` */
  relationLine = this.RULE('relationLine', (): RelationStatement => {
    const relation = this.CONSUME(RelationWord).tokenType.name as Relation;
    const { id, length, head, doc, flaws, body } = this.base;
    return {
      id,
      length,
      head,
      doc,
      flaws,
      body,
      type: 'relation',
      relation,
      values: this.SUBRULE(this.names, { ARGS: ['what it is'] }),
    };
  });

  contraindicatedLine = this.RULE('contraindicatedLine', (): ContraindicatedStatement => {
    this.CONSUME(AnyWord);
    const condition = this.SUBRULE(this.whenCondition);
    const { id, length, head, doc, flaws, body } = this.base;
    const { because, source } = this;
    return { id, length, head, doc, flaws, body, type: 'contraindicated', condition, because, source };
  });

  /** `when patient has acute_infection because "…" source …` */
  protected whenCondition = this.RULE('whenCondition', (): Expr | undefined => {
    const when = this.OPTION(() => this.CONSUME(When));
    if (when === undefined) this.lack('"when"');
    const condition = this.OPTION2(() => this.SUBRULE(this.expression));
    if (condition === undefined && when !== undefined) this.lack('a condition');
    this.SUBRULE(this.grounds);
    return condition;
  });

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
