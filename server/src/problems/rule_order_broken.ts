import { type Mend, type Place, problemKind, type Severity, type SourceNote } from './problem.ts';
import { sentence, whenHead } from './words.ts';

interface Data {
  readonly rule: string;
  readonly label: string;
  readonly severity: Severity;
  /** what is not as the rule asks, in words: "there is no count before sign out" */
  readonly wrong: string;
  /** true when what is owed never comes, false when something comes that may not come now */
  readonly missing: boolean;
  readonly always: boolean;
  readonly when: string | undefined;
  readonly why: string | undefined;
  readonly source: SourceNote | undefined;
  readonly declared: Place;
  readonly mends: readonly Mend[];
}

export const ruleOrderBroken = problemKind<Data>({
  code: 'rule_order_broken',
  severity: 'warning',
  title: 'Rule about order broken',
  page: `A rule says in which order steps come, how often, or which safety pause belongs before or after them, and on some path through the visit it is not so. The path is named.`,
  triggers: '',
  silent: '',
  words: ({ rule, label, severity, wrong, missing, always, when, why, source, declared, mends }) => ({
    rule,
    severity,
    title: label,
    message: `${sentence(`${whenHead(when ?? '')}${wrong}`)}${always || when ? '' : ', on some path'}.`,
    label: missing ? 'something is missing' : wrong,
    why,
    source,
    related: [{ place: declared, message: `rule ${rule}` }],
    mends,
  }),
});
