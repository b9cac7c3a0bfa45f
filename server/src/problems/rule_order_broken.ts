import { type Place, problemKind, type Severity, type SourceNote } from './problem.ts';
import { whenHead } from './words.ts';

interface Data {
  readonly rule: string;
  readonly label: string;
  readonly severity: Severity;
  /** the order or number the rule asks for, in words */
  readonly expected: string;
  /** true when what is owed never comes, false when something comes that may not come now */
  readonly missing: boolean;
  readonly always: boolean;
  readonly when: string | undefined;
  readonly why: string | undefined;
  readonly source: SourceNote | undefined;
  readonly declared: Place;
}

export const ruleOrderBroken = problemKind<Data>({
  code: 'rule_order_broken',
  severity: 'warning',
  title: 'Rule about order broken',
  page: `A rule says in which order steps come, how often, or which safety pause belongs before or after them, and on some path through the visit it is not so. The path is named.`,
  triggers: '',
  silent: '',
  words: ({ rule, label, severity, expected, missing, always, when, why, source, declared }) => ({
    rule,
    severity,
    title: label,
    message:
      `${whenHead(when ?? '')}${missing ? 'this never happens' : 'that is not so here'}${always || when ? '' : ' in some circumstances'}: ${expected}.`.replace(
        /^t/,
        'T',
      ),
    label: missing ? 'missing' : 'out of order',
    why,
    source,
    related: [{ place: declared, message: `rule ${rule}` }],
  }),
});
