import { formatQuantity } from '@curette/shared';
import { timeQuantity } from '../analysis/protocol/flow-words.ts';
import { type Mend, type Place, problemKind } from './problem.ts';
import { listWords, plain, sentence, whenHead } from './words.ts';

interface Step {
  readonly label: string;
  readonly lane: string;
  readonly place: Place;
}

interface Part {
  readonly label: string;
  readonly seconds: number;
  /** a wait of a length that the team chooses */
  readonly chosen: boolean;
}

interface Data {
  readonly role: string;
  readonly answer: 'always' | 'can' | 'not told';
  /** false in what may happen or not: a complication, a check that fails, a further round */
  readonly sure: boolean;
  readonly when: string;
  readonly first: Step;
  /** begins no sooner than the first, if all is as quick as it may be */
  readonly second: Step;
  /** where it can be: what has to take how long, in seconds, who is then still at work, and when the other begins */
  readonly run:
    | {
        readonly parts: readonly Part[];
        readonly still: 'first' | 'second';
        readonly begins: number;
      }
    | undefined;
  /** seconds from the beginning of the lanes; may be endless */
  readonly latestBegin: number;
  readonly soonestEnd: number;
  /** what of unknown length it hangs on */
  readonly open: readonly { readonly label: string; readonly waits: boolean; readonly place: Place }[];
  readonly tries: readonly Mend[];
}

export const roleInTwoLanes = problemKind<Data>({
  code: 'role_in_two_lanes',
  severity: 'error',
  title: 'In two lanes at once',
  page: `A role does one step at a time. Two lanes of work side by side ask for the same role at the same moment, so one of the two steps is done late, by somebody else, or by nobody.

Who does a step: whoever its line names (\`by surgeon, assistant\` takes both); else whoever the lane names, of those the ones that the action allows; else the only one of the team that the action allows. A pause is done by whoever it names. During a wait nobody is held.

* *Always* (an error): however long the steps take, the two go on at one time.
* *Can* (a warning): they do when the steps take as long, or as short, as their stated times allow. The message shows such a run. Where a wait of a free length, such as \`wait at least 5 min\`, keeps the two apart, nothing is said: the team waits until the other step is done.
* *Cannot be told* (advice): a step before them, or one of the two, does not say how long it takes.

It is told once for each role and two lanes, with the surest and earliest meeting.

Give one of the two to somebody else of the team, or do it before the lanes begin or when they are over.`,
  triggers: `
// quiet: missing_head
action extract (place p) {
  takes 10..40 min
  by    surgeon
}
action trim (material m) {
  takes 2..3 min
  by    surgeon, assistant
}

protocol graft_socket "Graft a socket" {
  given { site : place }
  team { surgeon, assistant }
  materials { cover : material }
  visit surgery "Surgery" {
    together {
      lane chairside by surgeon {
        extract site
      }
      lane side_table {
        trim cover by surgeon
        //            ^^^^^^^ role_in_two_lanes
      }
    }
  }
}
`,
  silent: `
// quiet: missing_head
action extract (place p) {
  takes 10..40 min
  by    surgeon
}
action trim (material m) {
  takes 2..3 min
  by    surgeon, assistant
}

protocol graft_socket "Graft a socket" {
  given { site : place }
  team { surgeon, assistant }
  materials { cover : material }
  visit surgery "Surgery" {
    together {
      lane chairside by surgeon {
        extract site
      }
      lane side_table {
        trim cover by assistant
      }
    }
  }
}
`,
  words: (data) => {
    const { role, answer, sure, when, first, second, open } = data;
    return {
      severity: answer === 'always' && sure ? 'error' : answer === 'not told' ? 'advice' : 'warning',
      message: `${sentence(`${whenHead(when)}${said(data)}`)}.`,
      label: answer === 'not told' ? 'whether at once cannot be told' : `the ${plain(role)} is in another lane`,
      related: [
        { place: first.place, message: `the ${plain(role)} is here meanwhile` },
        ...open.map((one) => ({
          place: one.place,
          message: one.waits ? 'how long this wait lasts is not known' : 'takes an unknown time',
        })),
      ].filter(({ place }) => place !== second.place),
      tries: data.tries,
    };
  },
});

function said({ role, answer, first, second, run, latestBegin, soonestEnd, open }: Data): string {
  const who = `the ${plain(role)}`;
  const two = `${named(first)} and ${named(second)}`;
  switch (answer) {
    case 'always': {
      const always = `${who} is asked for in two lanes at once, however long the steps take: for ${two}`;
      if (latestBegin === 0) return `${always}, both from the beginning of the lanes on`;
      if (soonestEnd <= latestBegin) return always;
      return `${always}, which begins after ${spoken(latestBegin)} at the latest, while the other lasts until ${spoken(soonestEnd)} at least`;
    }
    case 'can': {
      if (!run) return `${who} may be asked for in two lanes at once: for ${two}`;
      const [still, begins] = run.still === 'first' ? [first, second] : [second, first];
      const at = run.begins > 0 ? ` after ${spoken(run.begins)}` : '';
      return `${runWords(run.parts)}${who} is still at ${named(still)} when ${named(begins)} begins${at}`;
    }
    case 'not told':
      return `whether ${who} is asked for at once for ${two} cannot be told: ${unknown(open)}`;
    default:
      return answer satisfies never;
  }
}

function named({ label, lane }: Step): string {
  return `"${label}" (${lane})`;
}

/** Steps named in the run in which the two meet. */
const MOST_PARTS = 4;

function runWords(parts: readonly Part[]): string {
  if (parts.length === 0) return '';
  const longest = [...parts].sort((a, b) => b.seconds - a.seconds).slice(0, MOST_PARTS);
  const telling = parts.filter((part) => longest.includes(part));
  const words = telling.map((part) =>
    part.chosen ? `${spoken(part.seconds)} are waited` : `"${part.label}" takes ${spoken(part.seconds)}`,
  );
  const rest = parts.length > telling.length ? ', and the rest takes its part' : '';
  return `if ${listWords(words, 'and')}${rest}, `;
}

function unknown(open: Data['open']): string {
  const steps = [...new Set(open.filter(({ waits }) => !waits).map(({ label }) => `"${label}"`))];
  if (steps.length > 0) return `nothing says how long ${listWords(steps.slice(0, MOST_PARTS), 'and')} takes`;
  return 'how long a wait for a state lasts hangs on what came before the lanes';
}

function spoken(seconds: number): string {
  return formatQuantity(timeQuantity(seconds), { digits: 3 });
}
