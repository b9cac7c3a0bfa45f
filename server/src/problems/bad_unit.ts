import { problemKind } from './problem.ts';

interface Data {
  readonly name: string;
  readonly reason: 'already_a_unit' | 'not_one_value';
}

export const badUnit = problemKind<Data>({
  code: 'bad_unit',
  severity: 'error',
  title: 'Unit cannot be declared',
  page: `A \`unit\` declaration names a unit that exists already (or looks like one), or gives it no single value above nought.`,
  triggers: '',
  silent: '',
  words: ({ name, reason }) => ({
    message:
      reason === 'already_a_unit'
        ? `"${name}" is a unit already, or could be taken for one; give the new unit another name.`
        : `"${name}" needs one single value above nought, such as 0.05 mL, or "is count".`,
  }),
});
