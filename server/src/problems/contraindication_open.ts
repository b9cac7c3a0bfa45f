import { type FileId, type Place, problemKind, type SourceNote } from './problem.ts';
import { relationWords } from './words.ts';

interface Data {
  readonly thing: string;
  readonly is: string;
  /** `has x`, `takes x`, `allergic to x` */
  readonly relation: string;
  readonly because: string | undefined;
  readonly source: SourceNote | undefined;
  readonly file: FileId;
  readonly protocol: number;
  readonly patient: string;
  readonly ground: Place;
}

export const contraindicationOpen = problemKind<Data>({
  code: 'contraindication_open',
  severity: 'warning',
  title: 'Contraindication not dealt with',
  page: `A material in use is contraindicated for some patients, and the protocol neither excludes them (\`exclude when …\`) nor speaks of them (\`caution when …\`). A reader could take the protocol to be safe for them.`,
  triggers: '',
  silent: '',
  words: ({ thing, is, relation, because, source, file, protocol, patient, ground }) => ({
    message: `${is}${thing === is ? '' : ` (${thing})`} is contraindicated when the patient ${relationWords(relation)}, and the protocol neither excludes nor cautions.`,
    label: `contraindicated: ${relationWords(relation)}`,
    why: because,
    source,
    related: [{ place: ground, message: 'the contraindication' }],
    mends: (['exclude', 'caution'] as const).map((word) => ({
      title: `Add "${word} when ${patient} ${relation}"`,
      edits: [{ type: 'append', file, statement: protocol, lines: [`${word} when ${patient} ${relation}`] }],
    })),
  }),
});
