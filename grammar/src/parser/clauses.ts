/** What a line may say about itself at its end: `takes`, `by`, `because`, `source`. */
import { Because, By, SourceWord, Takes, Usually } from '../tokens.ts';
import type { QuantityNode } from '../tree.ts';
import type { Alternatives } from './base.ts';
import { PatternParser } from './patterns.ts';

const aRole: { ARGS: [string] } = { ARGS: ['a role'] };
const theReason: { ARGS: [string] } = { ARGS: ['the reason, in quotes,'] };
const aSource: { ARGS: [string] } = { ARGS: ['the name of a source'] };

export abstract class ClauseParser extends PatternParser {
  /** `because "…"`, `source NAME`; into `because` and `source` */
  protected grounds = this.RULE('grounds', (): void => {
    this.MANY(this.ground);
  });

  private ground = (): void => {
    this.OR(this.groundForms);
  };

  private groundForms: Alternatives<void> = [
    { ALT: () => this.SUBRULE(this.becauseClause) },
    { ALT: () => this.SUBRULE(this.sourceClause) },
  ];

  /** All four; into `takes`, `by`, `because` and `source` */
  protected clauses = this.RULE('clauses', (): void => {
    this.MANY(this.nextClause);
  });

  private nextClause = (): void => this.SUBRULE(this.clause);

  protected clause = this.RULE('clause', (): void => this.OR(this.clauseForms));

  private clauseForms: Alternatives<void> = [
    { ALT: () => this.SUBRULE(this.takesClause) },
    { ALT: () => this.SUBRULE(this.byClause) },
    { ALT: () => this.SUBRULE(this.becauseClause) },
    { ALT: () => this.SUBRULE(this.sourceClause) },
  ];

  protected takesClause = this.RULE('takesClause', (): void => {
    const start = this.from(this.CONSUME(Takes));
    const duration = this.SUBRULE(this.duration);
    const usually = this.OPTION(this.usually);
    this.once(start, this.takes, 'takes');
    this.takes = { start, end: this.end(), duration, usually };
  });

  protected usually = (): QuantityNode | undefined => {
    this.CONSUME(Usually);
    return this.SUBRULE2(this.duration);
  };

  protected byClause = this.RULE('byClause', (): void => {
    this.CONSUME(By);
    const roles = this.SUBRULE(this.names, aRole);
    this.by = this.by.length > 0 ? [...this.by, ...roles] : roles;
  });

  protected becauseClause = this.RULE('becauseClause', (): void => {
    const start = this.from(this.CONSUME(Because));
    const text = this.SUBRULE(this.wording, theReason);
    this.once(start, this.because, 'because');
    this.because = text;
  });

  protected sourceClause = this.RULE('sourceClause', (): void => {
    const start = this.from(this.CONSUME(SourceWord));
    const name = this.SUBRULE(this.name, aSource);
    this.once(start, this.source, 'source');
    this.source = name;
  });

  /** A clause said twice: the later one counts, and the line is told. */
  private once(start: number, earlier: unknown, word: string): void {
    if (earlier !== undefined) this.misfit({ start, end: this.end() }, `only one "${word}" on a line`);
  }
}
