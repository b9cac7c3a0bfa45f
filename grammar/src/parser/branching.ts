/** Lines inside a visit that own further steps: decisions, lanes, repetitions, complications. */
import { AnyWord, AtMost, Comma, Named, Or, Until } from '../tokens.ts';
import type {
  ComplicationStatement,
  DecideStatement,
  Expr,
  LaneStatement,
  Name,
  OptionStatement,
  OtherwiseStatement,
  RepeatStatement,
  TogetherStatement,
} from '../tree.ts';
import { StepParser } from './steps.ts';

export abstract class BranchParser extends StepParser {
  /** `decide buccal_wall, gum "Probe"` */
  decideLine = this.RULE('decideLine', (): DecideStatement => {
    this.CONSUME(AnyWord);
    const findings = this.SUBRULE(this.names, { ARGS: ['a finding'] });
    const label = this.SUBRULE(this.label);
    this.SUBRULE(this.clauses);
    const { id, length, head, doc, flaws, body } = this.base;
    const { takes, by, because, source } = this;
    return { id, length, head, doc, flaws, body, type: 'decide', findings, label, takes, by, because, source };
  });

  /** `option intact or thin, any "label"` */
  optionLine = this.RULE('optionLine', (): OptionStatement => {
    this.CONSUME(AnyWord);
    const values: Name[][] = [this.SUBRULE(this.alternatives)];
    this.MANY(() => {
      this.CONSUME(Comma);
      values.push(this.SUBRULE2(this.alternatives));
    });
    const label = this.SUBRULE(this.label);
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'option', values, label };
  });

  protected alternatives = this.RULE('alternatives', (): Name[] => {
    const names: Name[] = [];
    const add = (name: Name | undefined): void => {
      if (name !== undefined) names.push(name);
    };
    add(this.SUBRULE(this.name, { ARGS: ['a value of the finding, or "any",'] }));
    this.MANY(() => {
      this.CONSUME(Or);
      add(this.SUBRULE2(this.name, { ARGS: ['a value of the finding'] }));
    });
    return names;
  });

  otherwiseLine = this.RULE('otherwiseLine', (): OtherwiseStatement => this.bare('otherwise', this.CONSUME(AnyWord)));

  togetherLine = this.RULE('togetherLine', (): TogetherStatement => this.bare('together', this.CONSUME(AnyWord)));

  /** `lane chairside "…" by assistant` */
  laneLine = this.RULE('laneLine', (): LaneStatement => {
    this.CONSUME(AnyWord);
    const name = this.OPTION(() => this.named(this.CONSUME(Named)));
    const label = this.SUBRULE(this.label);
    this.OPTION2(() => this.SUBRULE(this.byClause));
    const { id, length, head, doc, flaws, body } = this.base;
    const { by } = this;
    return { id, length, head, doc, flaws, body, type: 'lane', name, label, by };
  });

  /** `repeat until "bleeding stops" at most 3 times` */
  repeatLine = this.RULE('repeatLine', (): RepeatStatement => {
    this.CONSUME(AnyWord);
    let until: Expr | undefined;
    let atMost: number | undefined;
    this.OPTION(() => {
      this.CONSUME(Until);
      until = this.SUBRULE(this.condition, { ARGS: ['when to stop'] });
    });
    this.OPTION2(() => {
      this.CONSUME(AtMost);
      atMost = this.SUBRULE(this.howOften);
    });
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'repeat', until, atMost };
  });

  complicationLine = this.RULE('complicationLine', (): ComplicationStatement => {
    this.CONSUME(AnyWord);
    const { id, length, head, doc, flaws, body } = this.base;
    return {
      id,
      length,
      head,
      doc,
      flaws,
      body,
      type: 'complication',
      label: this.SUBRULE(this.wording, { ARGS: ['what goes wrong, in quotes,'] }),
    };
  });
}
