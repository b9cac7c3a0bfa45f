import { type Place, problemKind } from './problem.ts';
import { listWords, plain, sentence, whenHead } from './words.ts';

interface Step {
  readonly label: string;
  readonly lane: string;
  readonly place: Place;
}

interface Data {
  /** work that goes on when the last of it begins */
  readonly others: readonly Step[];
  readonly last: Step;
  /** all of the team who may do any of it */
  readonly roles: readonly string[];
  readonly always: boolean;
  /** false in what may happen or not */
  readonly sure: boolean;
  readonly when: string;
}

export const tooFewHands = problemKind<Data>({
  code: 'too_few_hands',
  severity: 'error',
  title: 'More lanes than hands',
  page: `Nothing says who does these steps, and whoever does them, somebody is missing: more work goes on side by side than the team has people who may do it. Each role of the team is one person, who does one step at a time.

* *Always* (an error): however long the steps take.
* *Can* (a warning): when the steps take as long, or as short, as their stated times allow.

Add whoever helps to the \`team\`, or do some of the work before the lanes begin or when they are over.`,
  triggers: `
// quiet: missing_head
action retract (place p) {
  takes 10 min
}
action extract (place p) {
  takes 10..40 min
  by    surgeon
}
action trim (material m) {
  takes 2..3 min
}

protocol graft_socket "Graft a socket" {
  given { site : place, cheek : place }
  team { surgeon, assistant }
  materials { cover : material }
  visit surgery "Surgery" {
    together {
      lane chairside { extract site }
      lane beside { retract cheek }
      lane side_table { trim cover }
      //                ^^^^^^^^^^ too_few_hands
    }
  }
}
`,
  silent: `
// quiet: missing_head
action retract (place p) {
  takes 10 min
}
action extract (place p) {
  takes 10..40 min
  by    surgeon
}
action trim (material m) {
  takes 2..3 min
}

protocol graft_socket "Graft a socket" {
  given { site : place, cheek : place }
  team { surgeon, assistant, scrub_nurse }
  materials { cover : material }
  visit surgery "Surgery" {
    together {
      lane chairside { extract site }
      lane beside { retract cheek }
      lane side_table { trim cover }
    }
  }
}
`,
  words: ({ others, last, roles, always, sure, when }) => {
    const work = listWords(
      [...others, last].map(({ label, lane }) => `"${label}" (${lane})`),
      'and',
    );
    const there = roles.length === 1 ? 'is only' : 'are only';
    return {
      severity: always && sure ? 'error' : 'warning',
      message: `${sentence(`${whenHead(when)}${work} ${always ? 'go' : 'can go'} on at one time, and there ${there} ${people(roles)} to do them`)}.`,
      label: 'nobody is free for this',
      related: others.map(({ place }) => ({ place, message: 'goes on meanwhile' })),
    };
  },
});

function people(roles: readonly string[]): string {
  return listWords(
    roles.map((role) => `the ${plain(role)}`),
    'and',
  );
}
