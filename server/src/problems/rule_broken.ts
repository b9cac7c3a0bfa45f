import type { Expr } from '@curette/grammar';
import type { Filling } from '../analysis/protocol/step.ts';
import { type Place, problemKind, type Severity, type SourceNote } from './problem.ts';
import { article, plain, sentence, whenHead } from './words.ts';

interface Data {
  readonly rule: string;
  readonly label: string;
  readonly severity: Severity;
  /** what the rule expects, with this step's things in it */
  readonly expected: string;
  readonly always: boolean;
  readonly when: string | undefined;
  readonly why: string | undefined;
  readonly source: SourceNote | undefined;
  readonly declared: Place;
  /** what stands for the rule's names */
  readonly bound: readonly (readonly [string, Filling])[];
  readonly expr: Expr;
}

export const ruleBroken = problemKind<Data>({
  code: 'rule_broken',
  severity: 'warning',
  title: 'Rule broken',
  page: `A step does what a rule of the library or of the institution forbids. The rule's own name, reason and source are shown with the problem; its severity is the one the rule states.

Change the step; or, if the institution has reason to do otherwise, declare a rule of its own that \`replaces\` this one and says why.`,
  triggers: '',
  silent: '',
  words: ({ rule, label, severity, expected, always, when, why, source, declared, bound, expr }) => ({
    rule,
    severity,
    title: label,
    message: `${sentence(`${whenHead(when ?? '')}${actual(bound, expr, expected, always)}`)}.`,
    label: kindOf(bound, expr),
    why,
    source,
    related: [{ place: declared, message: `rule ${rule}` }],
  }),
});

/** "gingiva" is mucosa, which is soft tissue; here belongs a graft surface */
function actual(bound: Data['bound'], expr: Expr, expected: string, always: boolean): string {
  const thing = subject(bound, expr);
  if (!thing || expr.type !== 'is') return `that ${expected} is not ${always ? 'so' : 'so in some circumstances'}`;
  const parent = thing.kind.parent ? `, which is ${thing.kind.parent.label}` : '';
  const belongs = `here belongs ${expr.negated ? 'anything but ' : ''}${article(plain(expr.name?.text ?? ''))}`;
  return `"${thing.label}" is ${thing.kind.label}${parent}; ${belongs}`;
}

function kindOf(bound: Data['bound'], expr: Expr): string | undefined {
  return subject(bound, expr)?.kind.label;
}

function subject(bound: Data['bound'], expr: Expr) {
  if (expr.type !== 'is' || expr.subject.type !== 'path' || expr.subject.names.length !== 1) return undefined;
  const name = expr.subject.names[0]?.text;
  const filling = bound.find(([other]) => other === name)?.[1];
  return filling?.type === 'things' ? filling.things[0]?.thing : undefined;
}
