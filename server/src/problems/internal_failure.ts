import { problemKind } from './problem.ts';

interface Data {
  readonly pass: string;
  readonly detail: string;
}

export const internalFailure = problemKind<Data>({
  code: 'internal_failure',
  severity: 'error',
  title: 'Not checked: our defect',
  page: `Part of the checker failed on this declaration, through no fault of the text. That part is **not checked**; everything else is. Please report it with the text that caused it.`,
  triggers: '',
  silent: '',
  words: ({ pass, detail }) => ({
    message: `This was not checked (${pass}) because the checker itself failed: ${detail}. Please report it.`,
    label: 'not checked',
  }),
});
