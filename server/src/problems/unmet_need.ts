import { type Place, problemKind, type SourceNote } from './problem.ts';
import { plain } from './words.ts';

interface Data {
  readonly verb: string;
  readonly condition: string;
  readonly always: boolean;
  readonly because: string | undefined;
  readonly source: SourceNote | undefined;
  readonly declared: Place | undefined;
}

export const unmetNeed = problemKind<Data>({
  code: 'unmet_need',
  severity: 'error',
  title: 'Condition not met',
  page: `An action states a condition on what it is done with (a size, a property, a state), and it is not met here.`,
  triggers: '',
  silent: '',
  words: ({ verb, condition, always, because, source, declared }) => ({
    message: `"${plain(verb)}" asks that ${condition}; that is ${always ? 'not so' : 'not so in some circumstances'}.`,
    severity: always ? 'error' : 'warning',
    label: always ? 'not so' : 'not always so',
    why: because,
    source,
    related: declared ? [{ place: declared, message: 'asked for here' }] : [],
  }),
});
