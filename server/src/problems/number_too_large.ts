import { formatNumber } from '@curette/shared';
import { problemKind } from './problem.ts';

interface Data {
  readonly value: number;
}

export const numberTooLarge = problemKind<Data>({
  code: 'number_too_large',
  severity: 'error',
  title: 'Number too large',
  page: `A number has so many digits that it cannot be reckoned with: one more or less would make no difference to it. Nothing that hangs on it is judged.

Most often two numbers have run together, or a key was held down.`,
  triggers: `
// quiet: missing_head
protocol soak "Soak the graft" {
  visit surgery "Surgery" {
    wait 10000000000000000000 min
    //   ^^^^^^^^^^^^^^^^^^^^^^^^ number_too_large
  }
}
`,
  silent: `
// quiet: missing_head
protocol soak "Soak the graft" {
  visit surgery "Surgery" {
    wait 10 min
  }
}
`,
  words: ({ value }) => ({
    message: `${shown(value)} is too large a number to reckon with.`,
    label: 'too large',
  }),
});

function shown(value: number): string {
  return Math.abs(value) < 1e21 ? formatNumber(value) : 'This';
}
