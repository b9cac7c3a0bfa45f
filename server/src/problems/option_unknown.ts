import type { Finding } from '../analysis/model.ts';
import { type Place, problemKind } from './problem.ts';
import { listWords, meant, plain } from './words.ts';

interface Data {
  readonly value: string;
  readonly finding: Finding;
  readonly place: Place;
}

export const optionUnknown = problemKind<Data>({
  code: 'option_unknown',
  severity: 'error',
  title: 'No such finding',
  page: `An option names something that the finding cannot be. What a finding can be is a closed list in its declaration, so that it can be seen whether a decision covers all of it; a value outside the list would never be found.

Correct the word, or, if it can be found at the chair after all, add it to the finding where that is declared. Every decision over it then shows where it has to be dealt with.`,
  triggers: `
// quiet: missing_head
finding buccal_wall "Buccal wall" { intact, windowed, lost }

protocol graft_socket "Graft a socket" {
  visit surgery "Surgery" {
    decide buccal_wall "Probe the wall" {
      option intact { }
      option windowed or gone { note "Plan a flap" }
      //                 ^^^^ option_unknown
      otherwise { note "Plan a flap and a barrier membrane" }
    }
  }
}
`,
  silent: `
// quiet: missing_head
finding buccal_wall "Buccal wall" { intact, windowed, lost }

protocol graft_socket "Graft a socket" {
  visit surgery "Surgery" {
    decide buccal_wall "Probe the wall" {
      option intact { }
      option windowed { note "Plan a flap" }
      otherwise { note "Plan a flap and a barrier membrane" }
    }
  }
}
`,
  words: ({ value, finding, place }) => {
    const { sentence, mends } = meant(value, finding.values.keys(), place);
    return {
      message: `${finding.label} is never "${plain(value)}"; it is ${listWords([...finding.values.keys()].map(plain))}.${sentence}`,
      label: 'no such finding',
      mends,
    };
  },
});
