import { formatQuantity, isPoint, type Quantity } from '@curette/shared';
import { setWords } from '../analysis/kinds/value-words.ts';
import type { SetNote } from '../analysis/model.ts';
import type { Solved } from '../analysis/rules/solve.ts';
import { type Place, problemKind, type Related, type Severity, type SourceNote } from './problem.ts';
import { heldWhen, solvedSeverity, whenSolved } from './solved-words.ts';
import { inSets, listWords, sentence, whenHead } from './words.ts';

interface Data {
  readonly rule: string;
  readonly label: string;
  readonly severity: Severity;
  /** what adds up, and to how much of each */
  readonly amounts: readonly { readonly thing: string; readonly amount: Quantity }[];
  /** what the rule makes of it, where that is not simply the amount of one thing */
  readonly comesTo: Quantity | undefined;
  /** "at most 420 mg", as far as it is a limit */
  readonly limit: string;
  readonly scope: 'visit' | 'protocol';
  /** what must be found, or whom it is about: "patient has heart disease" */
  readonly when: string;
  readonly always: boolean;
  readonly solved: Solved | undefined;
  readonly sets: readonly SetNote[];
  readonly why: string | undefined;
  readonly source: SourceNote | undefined;
  readonly steps: readonly Related[];
  readonly declared: Place;
}

export const totalBroken = problemKind<Data>({
  code: 'total_broken',
  severity: 'warning',
  title: 'Total over its limit',
  page: `Steps that are each in order add up to what a rule forbids: over the ceiling of one agent, or, each within its own ceiling, over what several agents may come to together. The message names the total and the limit, and the set of figures that the limit comes from; every step that gives a part of it is named beside it.

What is added up runs from the path that uses least to the one that uses most: the options of a decision stand instead of one another, what may happen counts from nothing, and a repetition counts as often as it may come. Volumes become masses by the concentration that is stated, pieces become volumes by what one is stated to hold; nothing is assumed.

Where it hangs on a given fact that is stated as a range, or not at all, the message says for which values. State the fact, or the range of patients that the protocol is meant for.

What is said here is arithmetic on figures that the library states with their sources, and no advice for a patient: defer to local codes, labelling and licensed practice.`,
  triggers: `
// quiet: missing_head
kind solution "numbing solution" is material {
  concentration : concentration
  most_per_mass : dose per body mass
}
action infiltrate (solution d) (volume v) at (place p) {
  uses up d v
}

rule under_its_ceiling "No solution is given over its ceiling" {
  for each solution d given in a visit
  expect   total d <= d.most_per_mass * patient.mass
  severity error
  why      "Over it, it poisons"
  source   common_practice
}

protocol numbing "Numb a place" {
  given { patient { mass 50 kg }, site : place }
  materials { numb : solution { concentration 40 mg/mL, most_per_mass 7 mg/kg } }
  visit surgery "Surgery" {
    infiltrate numb 5 mL at site
    note "It is tested"
    infiltrate numb 4 mL at site
    //         ^^^^ under_its_ceiling
  }
}
`,
  silent: `
// quiet: missing_head
kind solution "numbing solution" is material {
  concentration : concentration
  most_per_mass : dose per body mass
}
action infiltrate (solution d) (volume v) at (place p) {
  uses up d v
}

rule under_its_ceiling "No solution is given over its ceiling" {
  for each solution d given in a visit
  expect   total d <= d.most_per_mass * patient.mass
  severity error
  why      "Over it, it poisons"
  source   common_practice
}

protocol numbing "Numb a place" {
  given { patient { mass 50 kg }, site : place }
  materials { numb : solution { concentration 40 mg/mL, most_per_mass 7 mg/kg } }
  visit surgery "Surgery" {
    infiltrate numb 5 mL at site
    note "It is tested"
    infiltrate numb 3 mL at site
  }
}
`,
  words: ({ amounts, comesTo, limit, scope, when, always, solved, sets, ...data }) => {
    const where = scope === 'visit' ? 'in this visit' : 'in the whole protocol';
    // What hangs on an unknown fact is spelt out, sets of figures and all.
    const unnamed = sets.filter((set) => !limit.includes(setWords(set)));
    const kept = always || when !== '' ? '' : ', which is not kept in some circumstances';
    const total = `${sentence(`${whenHead(when)}${totalWords(amounts, comesTo, where)}`)}; the rule asks for ${limit}${inSets(unnamed)}`;
    const message = !solved
      ? `${total}${kept}.`
      : solved.fact.stated
        ? `${total}, which is not kept ${whenSolved(solved)}.`
        : `${total}: ${heldWhen(solved)}.`;
    return {
      rule: data.rule,
      severity: solvedSeverity(data.severity, solved),
      title: data.label,
      message,
      label: totalLabel(amounts, comesTo),
      why: data.why,
      source: data.source,
      related: [...data.steps, { place: data.declared, message: `rule ${data.rule}` }],
    };
  },
});

function totalWords(amounts: Data['amounts'], comesTo: Quantity | undefined, where: string): string {
  const [first] = amounts;
  if (!comesTo)
    return first && amounts.length === 1
      ? `${first.thing} comes to ${amountWords(first.amount)} ${where}`
      : `${eachOf(amounts)} are used ${where}`;
  return `${eachOf(amounts)} ${amounts.length === 1 ? 'comes' : 'together come'} to ${amountWords(comesTo)} ${where}`;
}

function eachOf(amounts: Data['amounts']): string {
  return listWords(
    amounts.map(({ thing, amount }) => `${thing} (${amountWords(amount)})`),
    'and',
  );
}

function totalLabel(amounts: Data['amounts'], comesTo: Quantity | undefined): string | undefined {
  const [only] = amounts;
  const total = comesTo ?? (amounts.length === 1 ? only?.amount : undefined);
  return total && `${amountWords(total)} in all`;
}

function amountWords(amount: Quantity): string {
  return formatQuantity(amount, isPoint(amount.range) ? {} : { digits: 4, rounding: 'outward' });
}
