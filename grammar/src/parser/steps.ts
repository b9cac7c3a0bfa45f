/** Lines inside a visit. */
import { AnyText, AnyWord, AtHome, Comma, Named, Of, Otherwise, Preposition, Until, Within } from '../tokens.ts';
import type {
  Argument,
  Expr,
  InstructStatement,
  Name,
  NoteStatement,
  PathNode,
  PauseStepStatement,
  QuantityNode,
  RecordStatement,
  SizeNode,
  StepPart,
  StepStatement,
  StopStatement,
  Text,
  VerifyStatement,
  WaitStatement,
} from '../tree.ts';
import type { Alternatives } from './base.ts';
import { ProtocolParser } from './protocols.ts';

const noArguments: readonly Argument[] = [];

export abstract class StepParser extends ProtocolParser {
  /** `pack graft into socket with condenser in 4 increments takes 5..10 min` */
  stepLine = this.RULE('stepLine', (): StepStatement => {
    const verb = this.named(this.CONSUME(AnyWord));
    this.verb = verb.text;
    this.parts.length = 0;
    this.OPTION(this.directPart);
    this.MANY(this.prepositionPart);
    const parts = this.parts.slice();
    this.SUBRULE(this.clauses);
    const { id, length, head, doc, flaws, body } = this.base;
    const { takes, by, because, source } = this;
    return { id, length, head, doc, flaws, body, type: 'step', verb, parts, takes, by, because, source };
  });

  private verb = '';
  private parts: StepPart[] = [];

  private directPart = (): void => {
    const args = this.SUBRULE(this.stepArguments);
    this.parts.push({ start: args[0]?.start ?? 0, end: this.end(), preposition: undefined, arguments: args });
  };

  private prepositionPart = (): void => {
    const preposition = this.named(this.CONSUME(Preposition));
    const args = this.OPTION2(this.furtherArguments) ?? noArguments;
    if (args.length === 0) this.lackOf(`what to ${this.verb} it ${preposition.text}`);
    this.parts.push({ start: preposition.start, end: this.end(), preposition, arguments: args });
  };

  private furtherArguments = (): readonly Argument[] => this.SUBRULE2(this.stepArguments);

  /** `periotome, extraction_forceps` */
  protected stepArguments = this.RULE('stepArguments', (): Argument[] => {
    const first = this.SUBRULE(this.stepArgument);
    if (this.args.length > 0) this.args.length = 0;
    this.MANY(this.commaArgument);
    return this.args.length === 0 ? [first] : [first, ...this.args];
  });

  private args: Argument[] = [];

  private commaArgument = (): void => {
    this.CONSUME(Comma);
    const next = this.OPTION(this.nextArgument);
    if (next === undefined) this.lack('one more thing');
    else this.args.push(next);
  };

  private nextArgument = (): Argument => this.SUBRULE2(this.stepArgument);

  /** `numbing 1.7 mL`, `9 mm by 8 mm`, `"until clear"` */
  protected stepArgument = this.RULE('stepArgument', (): Argument => this.OR(this.argumentForms));

  private argumentForms: Alternatives<Argument> = [
    {
      ALT: () => {
        const thing = this.SUBRULE(this.path);
        const amount = this.OPTION(this.anAmount);
        return { start: thing.start, end: this.end(), thing, amount, text: undefined };
      },
    },
    {
      ALT: () => {
        const amount = this.SUBRULE2(this.amount);
        return { start: amount.start, end: this.end(), thing: undefined, amount, text: undefined };
      },
    },
    {
      ALT: () => {
        const text = this.text(this.CONSUME(AnyText));
        return { start: text.start, end: text.end, thing: undefined, amount: undefined, text };
      },
    },
  ];

  private anAmount = (): QuantityNode | SizeNode => this.SUBRULE(this.amount);

  pauseStepLine = this.RULE('pauseStepLine', (): PauseStepStatement => {
    this.CONSUME(AnyWord);
    const name = this.SUBRULE(this.name, { ARGS: ['the name of a pause'] });
    this.SUBRULE(this.clauses);
    const { id, length, head, doc, flaws, body } = this.base;
    const { takes, by, because, source } = this;
    return { id, length, head, doc, flaws, body, type: 'pause step', name, takes, by, because, source };
  });

  /** `wait 10 min`, `wait until graft is wetted for 10 min` */
  waitLine = this.RULE('waitLine', (): WaitStatement => {
    this.CONSUME(AnyWord);
    let duration: QuantityNode | undefined;
    let until: Expr | undefined;
    let said = false;
    this.OPTION(() => {
      said = true;
      this.OR([
        {
          ALT: () => {
            this.CONSUME(Until);
            until = this.SUBRULE(this.condition, { ARGS: ['what to wait for'] });
          },
        },
        {
          ALT: () => {
            duration = this.SUBRULE(this.someTime);
          },
        },
      ]);
    });
    if (!said) this.lack('a time such as 10 min, or "until" and a state,');
    this.SUBRULE(this.grounds);
    const { id, length, head, doc, flaws, body } = this.base;
    const { because, source } = this;
    return { id, length, head, doc, flaws, body, type: 'wait', duration, until, because, source };
  });

  /** `verify depth of socket within 9..12 mm otherwise { … }` */
  verifyLine = this.RULE('verifyLine', (): VerifyStatement => {
    this.CONSUME(AnyWord);
    let what: Name | Text | undefined;
    let of: PathNode | undefined;
    let within: QuantityNode | SizeNode | undefined;
    let otherwise = false;
    let otherwiseText: Text | undefined;
    this.OPTION(() => {
      this.OR([
        {
          ALT: () => {
            what = this.named(this.CONSUME(Named));
          },
        },
        {
          ALT: () => {
            what = this.text(this.CONSUME(AnyText));
          },
        },
      ]);
    });
    if (what === undefined) this.lack('what is measured or looked at');
    this.OPTION2(() => {
      of = this.SUBRULE(this.ofThing);
    });
    this.OPTION3(() => {
      this.CONSUME(Within);
      within = this.OPTION4(() => this.SUBRULE(this.amount));
      if (within === undefined) this.lack('the range that is accepted');
    });
    this.MANY(() => {
      this.OR2([
        { ALT: () => this.SUBRULE(this.clause) },
        {
          ALT: () => {
            this.CONSUME(Otherwise);
            otherwise = true;
            otherwiseText = this.OPTION5(() => this.text(this.CONSUME2(AnyText)));
            if (otherwiseText === undefined && !this.block)
              this.lack('what to do, in quotes or as a block { … } of steps,');
          },
        },
      ]);
    });
    const { id, length, head, doc, flaws, body } = this.base;
    const { takes, by, because, source } = this;
    return {
      id,
      length,
      head,
      doc,
      flaws,
      body,
      type: 'verify',
      what,
      of,
      within,
      otherwise,
      otherwiseText,
      takes,
      by,
      because,
      source,
    };
  });

  protected ofThing = this.RULE('ofThing', (): PathNode | undefined => {
    this.CONSUME(Of);
    const path = this.OPTION(() => this.SUBRULE(this.path));
    if (path === undefined) this.lack('a thing');
    return path;
  });

  instructLine = this.RULE('instructLine', (): InstructStatement => {
    this.CONSUME(AnyWord);
    const text = this.SUBRULE(this.wording, { ARGS: ['what the patient is told, in quotes,'] });
    let atHome = false;
    this.OPTION(() => {
      this.CONSUME(AtHome);
      atHome = true;
    });
    this.SUBRULE(this.clauses);
    const { id, length, head, doc, flaws, body } = this.base;
    const { takes, by, because, source } = this;
    return { id, length, head, doc, flaws, body, type: 'instruct', text, atHome, takes, by, because, source };
  });

  /** `record photograph "Occlusal view" of site` */
  recordLine = this.RULE('recordLine', (): RecordStatement => {
    this.CONSUME(AnyWord);
    const what = this.SUBRULE(this.name, { ARGS: ['what to keep, such as photograph,'] });
    const text = this.SUBRULE(this.label);
    const of = this.OPTION(() => this.SUBRULE(this.ofThing));
    this.SUBRULE(this.clauses);
    const { id, length, head, doc, flaws, body } = this.base;
    const { takes, by, because, source } = this;
    return { id, length, head, doc, flaws, body, type: 'record', what, text, of, takes, by, because, source };
  });

  noteLine = this.RULE('noteLine', (): NoteStatement => {
    this.CONSUME(AnyWord);
    const { id, length, head, doc, flaws, body } = this.base;
    return {
      id,
      length,
      head,
      doc,
      flaws,
      body,
      type: 'note',
      text: this.SUBRULE(this.wording, { ARGS: ['the remark, in quotes,'] }),
    };
  });

  stopLine = this.RULE('stopLine', (): StopStatement => {
    this.CONSUME(AnyWord);
    const { id, length, head, doc, flaws, body } = this.base;
    return {
      id,
      length,
      head,
      doc,
      flaws,
      body,
      type: 'stop',
      text: this.SUBRULE(this.wording, { ARGS: ['what happens instead, in quotes,'] }),
    };
  });
}
