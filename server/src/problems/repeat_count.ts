import { formatNumber } from '@curette/shared';
import { problemKind } from './problem.ts';

interface Data {
  readonly times: number;
}

export const repeatCount = problemKind<Data>({
  code: 'repeat_count',
  severity: 'error',
  title: 'Not a number of rounds',
  page: `A repetition is done once, or twice, or more often: a whole number of rounds, and one at least. This one says something else for its limit, so it is read as if it had none.

Where something may be left out altogether it is no repetition: write it as an option of a decision, or as a complication.`,
  triggers: `
// quiet: missing_head
protocol bleed "Bleeding socket" {
  visit evening "Evening call" {
    repeat until "Bleeding has stopped" at most 0 times {
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ repeat_count
      note "Fresh damp gauze, five minutes"
    }
  }
}
`,
  silent: `
// quiet: missing_head
protocol bleed "Bleeding socket" {
  visit evening "Evening call" {
    repeat until "Bleeding has stopped" at most once {
      note "Fresh damp gauze, five minutes"
    }
  }
}
`,
  words: ({ times }) => ({
    message: `A repetition is done once, twice or oftener, up to a thousand times; ${Math.abs(times) < 1e15 ? `"at most ${formatNumber(times)} times"` : 'this'} is no limit for it.`,
    label: 'not a number of rounds',
  }),
});
