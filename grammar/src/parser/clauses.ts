/** What a line may say about itself at its end: `takes`, `by`, `because`, `source`. */
import { Because, By, SourceWord, Takes, Usually } from '../tokens.ts';
import { PatternParser } from './patterns.ts';

export abstract class ClauseParser extends PatternParser {
  /** `because "…"`, `source NAME`; into `becauseText` and `sourceName` */
  protected grounds = this.RULE('grounds', (): void => {
    this.MANY(() => {
      this.OR([{ ALT: () => this.SUBRULE(this.becauseClause) }, { ALT: () => this.SUBRULE(this.sourceClause) }]);
    });
  });

  /** All four; into `takesTime`, `byRoles`, `becauseText` and `sourceName` */
  protected clauses = this.RULE('clauses', (): void => {
    this.MANY(() => this.SUBRULE(this.clause));
  });

  protected clause = this.RULE('clause', (): void => {
    this.OR([
      { ALT: () => this.SUBRULE(this.takesClause) },
      { ALT: () => this.SUBRULE(this.byClause) },
      { ALT: () => this.SUBRULE(this.becauseClause) },
      { ALT: () => this.SUBRULE(this.sourceClause) },
    ]);
  });

  protected takesClause = this.RULE('takesClause', (): void => {
    const start = this.from(this.CONSUME(Takes));
    const duration = this.SUBRULE(this.duration);
    const usually = this.OPTION(() => {
      this.CONSUME(Usually);
      return this.SUBRULE2(this.duration);
    });
    this.once(start, this.takesTime, 'takes');
    this.takesTime = { duration, usually };
  });

  protected byClause = this.RULE('byClause', (): void => {
    this.CONSUME(By);
    const roles = this.SUBRULE(this.names, { ARGS: ['a role'] });
    this.byRoles = this.byRoles.length > 0 ? [...this.byRoles, ...roles] : roles;
  });

  protected becauseClause = this.RULE('becauseClause', (): void => {
    const start = this.from(this.CONSUME(Because));
    const text = this.SUBRULE(this.wording, { ARGS: ['the reason, in quotes,'] });
    this.once(start, this.becauseText, 'because');
    this.becauseText = text;
  });

  protected sourceClause = this.RULE('sourceClause', (): void => {
    const start = this.from(this.CONSUME(SourceWord));
    const name = this.SUBRULE(this.name, { ARGS: ['the name of a source'] });
    this.once(start, this.sourceName, 'source');
    this.sourceName = name;
  });

  /** A clause said twice: the later one counts, and the line is told. */
  private once(start: number, earlier: unknown, word: string): void {
    if (earlier !== undefined) this.misfit({ start, end: this.end() }, `only one "${word}" on a line`);
  }
}
