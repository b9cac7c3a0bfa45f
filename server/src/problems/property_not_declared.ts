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
  page: `A rule asks that every entry of a kind states certain properties, and this one does not. Limits that depend on them cannot be judged.`,
  triggers: '',
  silent: '',
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
