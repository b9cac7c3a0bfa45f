import { formatQuantity } from '@curette/shared';
import { timeQuantity } from '../analysis/protocol/flow-words.ts';
import { type Mend, type Place, problemKind, type SourceNote } from './problem.ts';
import { listWords, plain, sentence, whenHead } from './words.ts';

interface Data {
  readonly thing: string;
  readonly state: string;
  /** the step, as its line says it */
  readonly step: string;
  /** the step that brought it into the state */
  readonly began: string | undefined;
  readonly beganPlace: Place | undefined;
  readonly when: string;
  readonly side: 'too soon' | 'too late';
  /** whatever happens; otherwise in some circumstances */
  readonly always: boolean;
  /** seconds, may be endless; the shortest time it can be where it is too soon or always too late, else the longest */
  readonly seconds: number;
  /** the longest time it can be, seconds */
  readonly longest: number;
  readonly limit: string;
  /** what lies between, in order */
  readonly between: readonly {
    readonly label: string;
    readonly lo: number;
    readonly hi: number;
    readonly place: Place;
  }[];
  /** the run that breaks it although the team chooses its waits as well as it can; undefined: nobody chooses anything between */
  readonly run:
    | readonly { readonly label: string; readonly seconds: number; readonly chosen: boolean; readonly place: Place }[]
    | undefined;
  /** whether it runs on from one visit to another */
  readonly overVisits: boolean;
  /** ISO 8601 dates of a run for which it breaks, where dates decide: of its beginning, of the step, and of the limit */
  readonly dates: { readonly from: string; readonly reached: string; readonly wanted: string } | undefined;
  /** there were too many ways through the work to see what a choice of the team's could do */
  readonly bounded: boolean;
  /** the state that follows when it is too late */
  readonly then: string | undefined;
  readonly because: string | undefined;
  readonly source: SourceNote | undefined;
  readonly tries: readonly Mend[];
}

export const clockBroken = problemKind<Data>({
  code: 'clock_broken',
  severity: 'error',
  title: 'Too soon or too late',
  page: `A step needs a thing to have been in a state for a certain time, no less or no more, and the order of work does not give it that time. No number in the file need be wrong: what counts is how long the steps between take. A graft wetted just before it is packed has not soaked, however correct the soaking time is on paper.

* *Always* (an error): however long the steps take, the limit is broken.
* *Can* (a warning): it is broken when the steps are as quick, or as slow, as their stated times allow. The message shows such a run.

Times are added up along the work: over a decision the shortest and the longest option count, over a repetition from once to as often as it may be done. How long a step takes nobody decides. How long a wait such as \`wait 5..20 min\` takes the team decides, in view of how the work has gone so far: a limit that can always be kept in this way is kept.

Begin the earlier step sooner, let work that has to be done anyway stand between the two, or wait for it: \`wait until granules is wetted for 10 min\` costs nothing when the time has passed already. If it comes too late, bring the two steps closer together.`,
  triggers: `
// quiet: missing_head
kind graft "bone graft" is material {
  states dry -> wetted -> packed
}
action wet (graft g) {
  makes g wetted
  takes 1 min
}
action extract (place p) {
  takes 5..20 min
}
action pack (graft g) into (place p) {
  needs g wetted for 10 min because "Too soon it floats out" source common_practice
  makes g packed
  takes 5 min
}

protocol socket_graft "Graft a socket" {
  given { site : place }
  materials { granules : graft }
  visit surgery "Surgery" {
    wet granules
    extract site
    pack granules into site
    //   ^^^^^^^^ clock_broken
  }
}
`,
  silent: `
// quiet: missing_head
kind graft "bone graft" is material {
  states dry -> wetted -> packed
}
action wet (graft g) {
  makes g wetted
  takes 1 min
}
action extract (place p) {
  takes 5..20 min
}
action pack (graft g) into (place p) {
  needs g wetted for 10 min because "Too soon it floats out" source common_practice
  makes g packed
  takes 5 min
}

protocol socket_graft "Graft a socket" {
  given { site : place }
  materials { granules : graft }
  visit surgery "Surgery" {
    wet granules
    extract site
    wait until granules is wetted for 10 min
    pack granules into site
  }
}
`,
  words: (data) => {
    const { thing, state, step, began, beganPlace, when, side, always, seconds, longest, limit, between, then } = data;
    const { run: played, bounded, dates } = data;
    const short = side === 'too soon';
    const wide = always && longest > seconds;
    const can = wide ? (short ? `at most ${spoken(longest)}` : `at least ${spoken(seconds)}`) : spoken(seconds);
    const run = always
      ? ''
      : `${
          data.overVisits
            ? `if the waits between the visits are as ${short ? 'short' : 'long'} as they may be`
            : played
              ? playedWords(played)
              : runWords(between, short)
        }, `;
    const head = whenHead(when);
    const been = `"${thing}" has been ${plain(state)} ${Number.isFinite(seconds) ? `for ${can}` : 'for longer than can be told'}`;
    const start = began ? ` since "${began}"` : '';
    const needs = short
      ? `it needs at least ${limit}`
      : `it may be at most ${limit}${then ? `, then it is ${plain(then)}` : ''}`;
    const choice = bounded
      ? ' What the team could make up for by choosing how long it waits is left out: there are more ways through the work than can be told apart.'
      : played && !always
        ? ' No length of the wait, within what is written, makes up for it.'
        : '';
    const onDates = dates
      ? ` From ${dates.from}, for instance, it is ${dates.reached}, and ${short ? 'not before' : 'by'} ${dates.wanted} it should be.`
      : '';
    const parts = played
      ? played.map((part) => ({
          place: part.place,
          message: part.chosen ? `${spoken(part.seconds)} are waited` : `takes ${spoken(part.seconds)} in this run`,
        }))
      : between.map((part) => ({
          place: part.place,
          message:
            always || part.lo === part.hi
              ? `takes ${span(part.lo, part.hi)}`
              : `takes ${span(part.lo, part.hi)}; ${spoken(short ? part.lo : part.hi)} in this run`,
        }));
    return {
      title: short ? 'Too soon' : 'Too late',
      severity: always ? 'error' : 'warning',
      message: `${sentence(`${head}${run}${been}`)}${start} when "${step}" begins; ${needs}.${choice}${onDates}`,
      label: `${plain(state)} for ${short ? (always ? can : `as little as ${can}`) : always ? can : `up to ${spoken(seconds)}`}`,
      why: data.because,
      source: data.source,
      related: [...(beganPlace ? [{ place: beganPlace, message: `${plain(state)} from here on` }] : []), ...parts],
      tries: data.tries,
    };
  },
});

/** Steps named in the run that breaks a limit. */
const MOST_PARTS = 4;

function spoken(seconds: number): string {
  return Number.isFinite(seconds) ? formatQuantity(timeQuantity(seconds), { digits: 3 }) : 'an unknown time';
}

function span(lo: number, hi: number): string {
  if (lo === hi) return spoken(lo);
  if (!Number.isFinite(hi)) return `${spoken(lo)} or more`;
  return formatQuantity({ ...timeQuantity(hi), range: { lo, hi } }, { digits: 3 });
}

function runWords(between: Data['between'], short: boolean): string {
  const parts = between
    .map((part) => ({ label: part.label, seconds: short ? part.lo : part.hi }))
    .filter((part) => part.seconds > 0);
  // What decides is told: minutes say nothing beside weeks, and a list of everything nobody reads.
  const sum = parts.reduce((total, part) => total + part.seconds, 0);
  const telling = parts.filter((part) => part.seconds >= sum / 100).slice(0, MOST_PARTS);
  const rest = parts.length > telling.length ? `, and the rest is as ${short ? 'quick' : 'slow'} as it may be` : '';
  if (parts.length === 0) return `if the work in between is as ${short ? 'quick' : 'slow'} as it may be`;
  return `if ${listWords(
    telling.map((part) => `"${part.label}" takes ${spoken(part.seconds)}`),
    'and',
  )}${rest}`;
}

function playedWords(run: NonNullable<Data['run']>): string {
  const parts = run.filter((part) => part.seconds > 0);
  const told = [...parts].sort((a, b) => b.seconds - a.seconds).slice(0, MOST_PARTS);
  const words = parts
    .filter((part) => told.includes(part))
    .map((part) =>
      part.chosen ? `${spoken(part.seconds)} are waited` : `"${part.label}" takes ${spoken(part.seconds)}`,
    );
  return words.length > 0 ? `if ${listWords(words, 'and')}` : 'if the work in between takes no time';
}
