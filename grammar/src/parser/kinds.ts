import {
  AnyWord,
  Arrow,
  As,
  AtMost,
  Before,
  By,
  Comma,
  End,
  Lasts,
  Of,
  Or,
  Pause,
  Protocol,
  RelationWord,
  Then,
  Visit,
  When,
} from '../tokens.ts';
import type {
  ContraindicatedStatement,
  Expr,
  LastsStatement,
  MustEndStatement,
  Name,
  Relation,
  RelationStatement,
  ServesAsStatement,
  StatesStatement,
} from '../tree.ts';
import { PropertyParser } from './properties.ts';

export abstract class KindParser extends PropertyParser {
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
}
