import type { Expr } from '@curette/grammar';
import type { Filling } from '../analysis/protocol/step.ts';
import type { Solved } from '../analysis/rules/solve.ts';
import { type Place, problemKind, type Severity, type SourceNote } from './problem.ts';
import { notSo, solvedSeverity } from './solved-words.ts';
import { article, plain, sentence } from './words.ts';

interface Data {
  readonly rule: string;
  readonly label: string;
  readonly severity: Severity;
  /** what the rule expects, with this step's things in it */
  readonly expected: string;
  readonly always: boolean;
  /** on which paths it is broken, where it is kept on others */
  readonly when: string | undefined;
  /** for which values of a given fact it is not so */
  readonly solved: Solved | undefined;
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
  page: `A step does what a rule of the library or of your institution forbids. The rule's own name, reason and source are shown with the problem, and its severity is the one that the rule states.

Where a rule hangs on a given fact that is stated as a range, or not at all, the message says for which values it is broken. State the fact, or the range that the protocol is meant for.

Change the step. If your institution has reason to do otherwise, declare a rule of its own that \`replaces\` this one and says why.`,
  triggers: `
// quiet: missing_head
kind sheet "holding membrane" is material
kind gum "soft tissue of the gum" is place
kind packed_graft "graft surface" is place
action lay (sheet s) on (place p)

rule sheet_on_graft "A membrane that holds the graft lies on it" {
  whenever lay (sheet s) on (place p)
  expect   p is packed_graft
  severity error
  why      "On soft tissue it bridges a gap and lifts at its edge"
  source   common_practice
}

protocol cover "Cover a graft" {
  given { margin : gum, surface : packed_graft }
  materials { cover : sheet }
  visit surgery "Surgery" {
    lay cover on margin
    //           ^^^^^^ sheet_on_graft
  }
}
`,
  silent: `
// quiet: missing_head
kind sheet "holding membrane" is material
kind gum "soft tissue of the gum" is place
kind packed_graft "graft surface" is place
action lay (sheet s) on (place p)

rule sheet_on_graft "A membrane that holds the graft lies on it" {
  whenever lay (sheet s) on (place p)
  expect   p is packed_graft
  severity error
  why      "On soft tissue it bridges a gap and lifts at its edge"
  source   common_practice
}

protocol cover "Cover a graft" {
  given { margin : gum, surface : packed_graft }
  materials { cover : sheet }
  visit surgery "Surgery" {
    lay cover on surface
  }
}
`,
  words: ({ rule, label, severity, expected, always, when, solved, why, source, declared, bound, expr }) => ({
    rule,
    severity: solvedSeverity(severity, solved),
    title: label,
    message: `${sentence(actual(bound, expr, expected, notSo(always, solved, when)))}.`,
    label: kindOf(bound, expr),
    why,
    source,
    related: [{ place: declared, message: `rule ${rule}` }],
  }),
});

/** "gingiva" is mucosa, which is soft tissue; here belongs a graft surface */
function actual(bound: Data['bound'], expr: Expr, expected: string, isNotSo: string): string {
  const thing = subject(bound, expr);
  if (!thing || expr.type !== 'is') return `the rule asks that ${expected}; ${isNotSo}`;
  // That a gum is a place goes without saying; that a mucosa is soft tissue does not.
  const parent = thing.kind.parent?.parent ? `, which is ${thing.kind.parent.label}` : '';
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
