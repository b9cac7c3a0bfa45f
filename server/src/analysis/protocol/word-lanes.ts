import { pauseInLane } from '../../problems/pause_in_lane.ts';
import { type Mend, type Place, type Problem, problemAt } from '../../problems/problem.ts';
import { roleInTwoLanes } from '../../problems/role_in_two_lanes.ts';
import { roleMayNot } from '../../problems/role_may_not.ts';
import { tooFewHands } from '../../problems/too_few_hands.ts';
import { plain } from '../../problems/words.ts';
import { placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';
import { type Flow, siteOf, type TogetherFlow } from './flow.ts';
import { labelOf } from './flow-words.ts';
import type { TooFewHands } from './hands-in-lanes.ts';
import { lengthOf, type Stretch, stretchesUpTo, timeAfter } from './lane-course.ts';
import type { Barred, RoleClash } from './lane-findings.ts';
import type { LaneWork, Pair } from './lane-meetings.ts';
import type { Work } from './lane-work.ts';
import { whenWords } from './possibility.ts';

/** A role asked for in two lanes at once: where, when, and who else might do it. */
export function wordClash(
  together: TogetherFlow,
  clash: RoleClash,
  team: ReadonlySet<string>,
  written: (flow: Flow) => string,
): Problem {
  const { role, answer, first, second } = clash;
  return problemAt(roleInTwoLanes, placeOfRole(second.flow, role), {
    role,
    answer,
    sure: !first.aside && !second.aside,
    when: whenWords(clash.when),
    first: told(together, first),
    second: told(together, second),
    run: answer === 'can' ? runOf(first, second) : undefined,
    latestBegin: second.begins.most,
    soonestEnd: first.ends.least,
    open: [...new Set([...first.open, ...second.open])].map((flow) => ({
      label: labelOf(flow),
      waits: flow.type === 'wait',
      place: siteOf(flow),
    })),
    tries:
      answer === 'not told'
        ? []
        : [
            ...givenToAnother(second, role, team),
            ...givenToAnother(first, role, team),
            ...movedBehind(together, second, written),
          ],
  });
}

/** A pause in one lane that those at work in another cannot take part in. */
export function wordPause(together: TogetherFlow, pair: Pair, written: (flow: Flow) => string): Problem {
  const { first, second, answer } = pair;
  return problemAt(pauseInLane, siteOf(second.flow), {
    pause: told(together, second),
    other: told(together, first),
    always: answer === 'always',
    when: whenWords(pair.when),
    tries: pauseMoved(together, second, written),
  });
}

/** Work for which nobody is left, shown at what begins last. */
export function wordTooFew(together: TogetherFlow, { work, roles, answer, when }: TooFewHands): Problem | undefined {
  const inOrder = [...work].sort((a, b) => a.begins.least - b.begins.least || a.lane - b.lane);
  const last = inOrder.pop();
  return (
    last &&
    problemAt(tooFewHands, siteOf(last.flow), {
      roles,
      always: answer === 'always',
      sure: !work.some(({ aside }) => aside),
      when: whenWords(when),
      others: inOrder.map((one) => told(together, one)),
      last: told(together, last),
    })
  );
}

/** A step that nobody of its lane may do: its own line can give it to somebody of the team who may. */
export function wordBarred(module: Module, { flow, roles, allowed }: Barred, team: ReadonlySet<string>): Problem {
  const { action } = flow.step;
  const [role = ''] = roles;
  const place = siteOf(flow);
  const source =
    action &&
    (module.module(action.file) ?? module).citation(action.type === 'action' ? action.ground.source : undefined);
  const problem = problemAt(roleMayNot, place, { role, verb: flow.verb, allowed, place, source });
  const end = flow.call ? undefined : endOfParts(flow);
  return {
    ...problem,
    mends:
      end === undefined
        ? []
        : allowed
            .filter((other) => team.has(other))
            .map((other) => ({
              title: `Give the step to the ${plain(other)}`,
              edits: [
                {
                  type: 'replace',
                  place: placeOf(flow.file, flow.statement, { start: end, end }),
                  text: ` by ${other}`,
                },
              ],
            })),
  };
}

function told(together: TogetherFlow, { flow, lane }: LaneWork) {
  return { label: labelOf(flow), lane: together.lanes[lane]?.label ?? '', place: siteOf(flow) };
}

/** The role's name on the line, where it stands there. */
function placeOfRole(flow: Flow, role: string): Place {
  const name = flow.call ? undefined : namesOn(flow).find((other) => other.text === role);
  return name ? placeOf(flow.file, flow.statement, name) : siteOf(flow);
}

function namesOn(flow: Flow) {
  const { statement } = flow;
  return statement.type === 'step' || statement.type === 'pause step' || statement.type === 'verify'
    ? statement.by
    : [];
}

interface Run {
  /** what it hangs on, in order: how long each part takes in this run; seconds */
  readonly parts: readonly { readonly label: string; readonly seconds: number; readonly chosen: boolean }[];
  /** the one who is still at work, and the one that then begins */
  readonly still: 'first' | 'second';
  /** seconds from the beginning of the lanes */
  readonly begins: number;
}

/** One run in which the two meet. Waits that the team chooses are as favourable in it as they may be. */
function runOf(first: Work, second: Work): Run | undefined {
  const one = stillAtWork(first, second);
  if (one) return { ...one, still: 'first' };
  const other = stillAtWork(second, first);
  return other && { ...other, still: 'second' };
}

/** A run in which `a` has begun and is not over when `b` begins: `b` as early as that allows, `a` as slow as it may be. */
function stillAtWork(a: Work, b: Work): Omit<Run, 'still'> | undefined {
  const begins = Math.max(b.begins.held, a.begins.least);
  if (begins > b.begins.most) return undefined;
  const began = Math.min(a.begins.hurried, begins);
  if (begins >= began + a.flow.duration.hi) return undefined;
  const slow = fractionFor(a.before, began, 0);
  const quick = fractionFor(b.before, begins, 1);
  const { lo, hi } = a.flow.duration;
  return {
    parts: [
      ...varying(a.before, slow, 0),
      ...(lo < hi ? [{ label: labelOf(a.flow), seconds: hi, chosen: false }] : []),
      ...varying(b.before, quick, 1),
    ],
    begins,
  };
}

/** How far between their shortest and their longest stretches of work have to be for a time to be reached. */
function fractionFor(last: Stretch | undefined, time: number, waits: number): number {
  let low = 0;
  let high = 1;
  if (timeAfter(last, low, waits) >= time) return low;
  if (timeAfter(last, high, waits) <= time) return high;
  for (let step = 0; step < HALVINGS; step++) {
    const middle = (low + high) / 2;
    if (timeAfter(last, middle, waits) < time) low = middle;
    else high = middle;
  }
  return high;
}

/** A day is then told apart to the millisecond. */
const HALVINGS = 27;

function varying(last: Stretch | undefined, work: number, waits: number): Run['parts'] {
  return stretchesUpTo(last)
    .filter((stretch) => stretch.lo < stretch.hi && !stretch.until)
    .map((stretch) => ({
      label: labelOf(stretch.flow),
      seconds: lengthOf(stretch, work, waits),
      chosen: stretch.chosen,
    }));
}

/** More roles than this are not offered for one step. */
const MOST_OTHERS = 3;

/** The step done by somebody else of the team who may. */
function givenToAnother({ flow, hands }: Work, role: string, team: ReadonlySet<string>): Mend[] {
  const { statement } = flow;
  if (flow.type !== 'step' || flow.call || statement.type !== 'step') return [];
  const allowed = flow.step.action?.type === 'action' ? flow.step.action.by : [];
  const others = [...team].filter(
    (other) => !hands.roles.includes(other) && (allowed.length === 0 || allowed.includes(other)),
  );
  const name = statement.by.find((other) => other.text === role);
  const end = endOfParts(flow);
  return others.slice(0, MOST_OTHERS).map((other) => ({
    title: `Give "${labelOf(flow)}" to the ${plain(other)}`,
    edits: [
      {
        type: 'replace',
        place: placeOf(flow.file, statement, name ?? { start: end, end }),
        text: name ? other : ` by ${hands.roles.map((one) => (one === role ? other : one)).join(', ')}`,
      },
    ],
  }));
}

/** Where a clause can be put behind what a step is done with. */
function endOfParts({ statement }: Flow): number {
  if (statement.type !== 'step') return statement.head.end;
  return statement.parts.reduce((furthest, part) => Math.max(furthest, part.end), statement.verb.end);
}

/** The last step of a lane done when all lanes are over: then nothing that it came before or after has changed places with it. */
function movedBehind(together: TogetherFlow, { flow, hands, lane }: LaneWork, written: (flow: Flow) => string): Mend[] {
  const items = together.lanes[lane]?.items ?? [];
  const line = written(flow);
  if (flow.type !== 'step' || flow.call || items.length < 2 || items.at(-1) !== flow || line.includes('\n')) return [];
  const who = flow.by.length > 0 || hands.type === 'one of' ? '' : ` by ${hands.roles.join(', ')}`;
  const { file } = flow;
  return [
    {
      title: `Do "${labelOf(flow)}" when all lanes are over`,
      edits: [
        { type: 'remove', file, statement: flow.statement.id },
        { type: 'insert', where: 'after', file, statement: together.statement.id, lines: [`${line}${who}`] },
      ],
    },
  ];
}

/** A pause that its lane begins or ends with, held before the lanes begin or when they are over. */
function pauseMoved(together: TogetherFlow, { flow, lane }: LaneWork, written: (flow: Flow) => string): Mend[] {
  const items = together.lanes[lane]?.items ?? [];
  const line = written(flow);
  if (flow.type !== 'pause' || flow.call || flow.statement.body || items.length < 2 || line.includes('\n')) return [];
  const where = items[0] === flow ? 'before' : items.at(-1) === flow ? 'after' : undefined;
  if (!where) return [];
  const { file } = flow;
  return [
    {
      title: where === 'before' ? 'Pause before the lanes begin' : 'Pause when all lanes are over',
      edits: [
        { type: 'remove', file, statement: flow.statement.id },
        { type: 'insert', where, file, statement: together.statement.id, lines: [line] },
      ],
    },
  ];
}
