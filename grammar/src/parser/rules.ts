/** Lines inside rules. */
import {
  After,
  All,
  And,
  AnyWord,
  Before,
  Bound,
  Content,
  Declares,
  Each,
  First,
  Given,
  Last,
  Never,
  NumberWord,
  Once,
  Only,
  Times,
  Used,
  Where,
} from '../tokens.ts';
import type {
  BetweenStatement,
  CountStatement,
  EveryStatement,
  ExpectStatement,
  Expr,
  ForEachStatement,
  Name,
  OrderStatement,
  Pattern,
  PauseRuleStatement,
  QuantityNode,
  ReplacesStatement,
  SeverityStatement,
  WheneverStatement,
  WhyStatement,
} from '../tree.ts';
import { ActionParser } from './actions.ts';

export abstract class RuleParser extends ActionParser {
  /** `whenever lay (holding_membrane m) on (place p) where …` */
  wheneverLine = this.RULE('wheneverLine', (): WheneverStatement => {
    this.CONSUME(AnyWord);
    const pattern = this.SUBRULE(this.pattern);
    const where = this.OPTION((): Expr | undefined => {
      this.CONSUME(Where);
      return this.SUBRULE(this.condition, { ARGS: ['a condition'] });
    });
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'whenever', pattern, where };
  });

  expectLine = this.RULE('expectLine', (): ExpectStatement => {
    this.CONSUME(AnyWord);
    const { id, length, head, doc, flaws, body } = this.base;
    return {
      id,
      length,
      head,
      doc,
      flaws,
      body,
      type: 'expect',
      condition: this.SUBRULE(this.condition, { ARGS: ['a condition'] }),
    };
  });

  /** `between pack (graft g) and place (implant i) at least 4 mo`, `… at least i.healing` */
  betweenLine = this.RULE('betweenLine', (): BetweenStatement => {
    this.CONSUME(AnyWord);
    const first = this.SUBRULE(this.patternWhereOne);
    let second: Pattern | undefined;
    let and = false;
    this.OPTION(() => {
      this.CONSUME(And);
      and = true;
      second = this.SUBRULE(this.patternWhere);
    });
    if (!and) this.lack('"and" and the other step');
    let bound: QuantityNode | undefined;
    let property: BetweenStatement['property'];
    this.OPTION2({
      GATE: () => this.LA(1).tokenType !== NumberWord && !/^\d/.test(this.LA(2).image),
      DEF: () => {
        const token = this.CONSUME(Bound);
        const value = this.OPTION3(() => this.SUBRULE(this.sum));
        if (value === undefined) this.lack('a time such as 4 mo');
        const side = token.tokenType.name as CountStatement['bound'];
        if (side && value) property = { start: this.from(token), end: this.end(), side, value };
      },
    });
    this.OPTION4({
      GATE: () => property === undefined,
      DEF: () => {
        bound = this.SUBRULE(this.quantity);
      },
    });
    if (bound === undefined && property === undefined) this.lack('a time such as at least 4 mo');
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'between', first, second, bound, property };
  });

  /** `for each drug d given in a visit`, `for all drug d given in a visit where patient has …` */
  forEachLine = this.RULE('forEachLine', (): ForEachStatement => {
    this.CONSUME(AnyWord);
    let together: boolean | undefined;
    this.OPTION(() => {
      this.OR2([
        {
          ALT: () => {
            this.CONSUME(Each);
            together = false;
          },
        },
        {
          ALT: () => {
            this.CONSUME(All);
            together = true;
          },
        },
      ]);
    });
    if (together === undefined) this.lack('"each" or "all"');
    const kind = this.SUBRULE(this.name, { ARGS: ['a kind'] });
    const name = this.OPTION2(() => this.named(this.CONSUME(Content)));
    let how: ForEachStatement['how'];
    this.OPTION3(() => {
      this.OR([
        {
          ALT: () => {
            this.CONSUME(Given);
            how = 'given';
          },
        },
        {
          ALT: () => {
            this.CONSUME(Used);
            how = 'used';
          },
        },
      ]);
    });
    const scope = this.SUBRULE(this.scope);
    const where = this.OPTION4((): Expr | undefined => {
      this.CONSUME(Where);
      return this.SUBRULE(this.condition, { ARGS: ['a condition'] });
    });
    const { id, length, head, doc, flaws, body } = this.base;
    return {
      id,
      length,
      head,
      doc,
      flaws,
      body,
      type: 'for each',
      together: together === true,
      kind,
      name,
      how,
      scope,
      where,
    };
  });

  /** `order A before B`, `A only after B`, `A first in a visit`, `A last in the protocol` */
  orderLine = this.RULE('orderLine', (): OrderStatement => {
    this.CONSUME(AnyWord);
    const first = this.SUBRULE(this.patternWhere);
    let only = false;
    let relation: OrderStatement['relation'];
    let second: Pattern | undefined;
    this.OPTION(() => {
      this.CONSUME(Only);
      only = true;
    });
    this.OPTION2(() => {
      this.OR([
        {
          ALT: () => {
            relation = this.SUBRULE(this.beforeOrAfter);
            second = this.SUBRULE2(this.patternWhere);
          },
        },
        {
          ALT: () => {
            this.CONSUME(First);
            relation = 'first';
          },
        },
        {
          ALT: () => {
            this.CONSUME(Last);
            relation = 'last';
          },
        },
      ]);
    });
    if (relation === undefined) this.lack('"before", "after", "first" or "last"');
    const scope = this.SUBRULE(this.scope);
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'order', first, only, relation, second, scope };
  });

  protected beforeOrAfter = this.RULE('beforeOrAfter', (): 'before' | 'after' =>
    this.OR<'before' | 'after'>([
      {
        ALT: () => {
          this.CONSUME(Before);
          return 'before';
        },
      },
      {
        ALT: () => {
          this.CONSUME(After);
          return 'after';
        },
      },
    ]),
  );

  /** `count A exactly once in a visit`, `at most 2 times`, `at least once`, `never` */
  countLine = this.RULE('countLine', (): CountStatement => {
    this.CONSUME(AnyWord);
    const pattern = this.SUBRULE(this.patternWhere);
    let bound: CountStatement['bound'];
    let times: number | undefined;
    this.OPTION(() => {
      this.OR([
        {
          ALT: () => {
            this.CONSUME(Never);
            bound = 'at most';
            times = 0;
          },
        },
        {
          ALT: () => {
            bound = this.CONSUME(Bound).tokenType.name as CountStatement['bound'];
            times = this.SUBRULE(this.howOften);
          },
        },
      ]);
    });
    if (bound === undefined) this.lack('"exactly once", "at least", "at most" or "never"');
    const scope = this.SUBRULE(this.scope);
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'count', pattern, bound, times, scope };
  });

  /** `once`, `2 times` */
  protected howOften = this.RULE('howOften', (): number | undefined => {
    let times: number | undefined;
    this.OPTION(() => {
      this.OR([
        {
          ALT: () => {
            this.CONSUME(Once);
            times = 1;
          },
        },
        {
          ALT: () => {
            times = Number(this.CONSUME(NumberWord).image);
            if (this.OPTION2(() => this.CONSUME(Times)) === undefined) this.lack('"times"');
          },
        },
      ]);
    });
    if (times === undefined) this.lack('"once" or a number of times');
    return times;
  });

  /** `pause time_out before incise (tissue)` */
  pauseRuleLine = this.RULE('pauseRuleLine', (): PauseRuleStatement => {
    this.CONSUME(AnyWord);
    const pause = this.SUBRULE(this.name, { ARGS: ['the name of a pause'] });
    let relation: PauseRuleStatement['relation'];
    let pattern: Pattern | undefined;
    this.OPTION(() => {
      relation = this.SUBRULE(this.beforeOrAfter);
      pattern = this.SUBRULE(this.patternWhere);
    });
    if (relation === undefined) this.lack('"before" or "after" and a step');
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'pause rule', pause, relation, pattern };
  });

  /** `every anaesthetic declares concentration, ceiling` */
  everyLine = this.RULE('everyLine', (): EveryStatement => {
    this.CONSUME(AnyWord);
    const kind = this.SUBRULE(this.name, { ARGS: ['a kind'] });
    let properties: Name[] = [];
    let said = false;
    this.OPTION(() => {
      this.CONSUME(Declares);
      said = true;
      properties = this.SUBRULE(this.names, { ARGS: ['a property'] });
    });
    if (!said) this.lack('"declares" and the properties');
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'every', kind, properties };
  });

  severityLine = this.RULE('severityLine', (): SeverityStatement => {
    this.CONSUME(AnyWord);
    const { id, length, head, doc, flaws, body } = this.base;
    return {
      id,
      length,
      head,
      doc,
      flaws,
      body,
      type: 'severity',
      level: this.SUBRULE(this.name, { ARGS: ['error, warning or advice'] }),
    };
  });

  whyLine = this.RULE('whyLine', (): WhyStatement => {
    this.CONSUME(AnyWord);
    const { id, length, head, doc, flaws, body } = this.base;
    return {
      id,
      length,
      head,
      doc,
      flaws,
      body,
      type: 'why',
      text: this.SUBRULE(this.wording, { ARGS: ['the reason, in quotes,'] }),
    };
  });

  replacesLine = this.RULE('replacesLine', (): ReplacesStatement => {
    this.CONSUME(AnyWord);
    const { id, length, head, doc, flaws, body } = this.base;
    return {
      id,
      length,
      head,
      doc,
      flaws,
      body,
      type: 'replaces',
      rule: this.SUBRULE(this.name, { ARGS: ['a rule'] }),
    };
  });
}
