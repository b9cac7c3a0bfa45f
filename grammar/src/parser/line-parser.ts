/** The whole grammar of lines: one rule a form of line, each run on the words of one head. */
import type { LineRule } from '../forms.ts';
import type { Statement, UnreadableStatement } from '../tree.ts';
import type { Draft } from './base.ts';
import { BranchParser } from './branching.ts';

export class LineParser extends BranchParser {
  /** @param skipValidations true at run time; a test checks the grammar once */
  constructor(skipValidations = true) {
    super(skipValidations);
    this.performSelfAnalysis();
  }

  /** Reads the line it was readied for, as that form. What is wrong with it is in `found`. */
  line(rule: LineRule): Draft<Statement> {
    // Only a rule that meets a first word it was not chosen for gives nothing.
    return rule === 'unreadableLine'
      ? this.unreadable()
      : ((this[rule]() as Statement | undefined) ?? this.unreadable());
  }

  private unreadable(): UnreadableStatement {
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'unreadable' };
  }
}
