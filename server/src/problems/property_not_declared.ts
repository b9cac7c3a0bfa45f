import { type Place, problemKind, type Severity, type SourceNote } from './problem.ts';
import { listWords, plain } from './words.ts';

interface Data {
  readonly entry: string;
  readonly kind: string;
  readonly missing: readonly string[];
  readonly rule: string;
  readonly severity: Severity;
  readonly why: string | undefined;
  readonly source: SourceNote | undefined;
  readonly declared: Place;
}

export const propertyNotDeclared = problemKind<Data>({
  code: 'property_not_declared',
  severity: 'warning',
  title: 'Property not stated',
  page: `A rule asks that everything of a kind states certain properties, and this entry does not. Limits that hang on them cannot be judged wherever it is used.

State them, with what they rest on; the label or the leaflet of the product usually has them.`,
  triggers: `
kind solution "anaesthetic solution" is material {
  cartridge : volume
  ceiling   : mass
}

rule solution_says_its_ceiling "Every solution says its ceiling" {
  every    solution declares ceiling
  severity error
  why      "Without it nobody can tell how much is too much"
  source   common_practice
}

solution house_solution "House solution" {
//       ^^^^^^^^^^^^^^ solution_says_its_ceiling
  cartridge 1.7 mL
}
`,
  silent: `
kind solution "anaesthetic solution" is material {
  cartridge : volume
  ceiling   : mass
}

rule solution_says_its_ceiling "Every solution says its ceiling" {
  every    solution declares ceiling
  severity error
  why      "Without it nobody can tell how much is too much"
  source   common_practice
}

solution house_solution "House solution" {
  cartridge 1.7 mL
  ceiling   500 mg source common_practice
}
`,
  words: ({ entry, kind, missing, rule, severity, why, source, declared }) => ({
    rule,
    severity,
    message: `${entry} does not state ${listWords(missing.map(plain), 'and')}; every ${kind} has to.`,
    label: `${listWords(missing.map(plain), 'and')} missing`,
    why,
    source,
    related: [{ place: declared, message: `rule ${rule}` }],
  }),
});
