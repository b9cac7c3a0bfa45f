import type { Assumption } from './flow.ts';
import { both } from './lane-course.ts';
import { type LaneWork, meeting } from './lane-meetings.ts';

/** Work in several lanes at one time for which there are not enough of the team. */
export interface TooFewHands {
  readonly work: readonly LaneWork[];
  /** all who may do any of it */
  readonly roles: readonly string[];
  readonly answer: 'always' | 'can';
  readonly when: readonly Assumption[];
}

/** Looked at for each stretch that begins: stretches in each other lane, those begun last, and choices of one a lane. */
const MOST_A_LANE = 8;
const MOST_CHOICES = 64;

/**
 * Whether there is ever work in several lanes at one time for which the team has not enough people: whatever each does, somebody is
 * missing. By Hall's theorem (J Lond Math Soc 1935;10:26-30) that is so if and only if some of the work, taken together, may be done by
 * fewer people than it asks for.
 *
 * Work that names one and the same role twice is left to the check of roles. Where waits that the team chooses, or lengths that nothing
 * states, could keep the work apart, nothing is said.
 *
 * @param work of all lanes, in the order in which it can begin
 */
export function tooFewHandsIn(work: readonly LaneWork[], team: ReadonlySet<string>): TooFewHands | undefined {
  if (team.size === 0 || !work.some(({ hands }) => hands.type === 'one of')) return undefined;
  let found: TooFewHands | undefined;
  const going = new Map<number, LaneWork[]>();
  for (const next of work) {
    for (const [lane, begun] of going)
      going.set(
        lane,
        begun.filter((one) => one.ends.most > next.begins.least),
      );
    const others = [...going].filter(([lane]) => lane !== next.lane).map(([, begun]) => begun);
    going.set(next.lane, [...(going.get(next.lane) ?? []), next].slice(-MOST_A_LANE));
    for (const choice of choices(next, others)) {
      const short = shortOf(choice, team);
      if (!short) continue;
      const answer = surely(short.work);
      const when = whenAll(short.work);
      if (!answer || !when || (found && answer === 'can')) continue;
      found = { ...short, answer, when };
      if (answer === 'always') return found;
    }
  }
  return found;
}

/** The stretch with one of each other lane, in every way, as far as they can come in one run. */
function choices(next: LaneWork, others: readonly (readonly LaneWork[])[]): readonly (readonly LaneWork[])[] {
  let all: LaneWork[][] = [[next]];
  for (const begun of others) {
    const more = all.flatMap((choice) =>
      begun.filter((one) => whenAll([...choice, one]) !== undefined).map((one) => [...choice, one]),
    );
    if (more.length > 0) all = more.slice(0, MOST_CHOICES);
  }
  return all;
}

function whenAll(work: readonly LaneWork[]) {
  let when: ReturnType<typeof both> = [];
  for (const one of work) when = when && both(when, one.when);
  return when;
}

/** Each person that work asks for. Roles that are not in the team are told elsewhere. */
function demandsOf(work: LaneWork, team: ReadonlySet<string>): readonly (readonly string[])[] {
  const { type, roles } = work.hands;
  const there = roles.filter((role) => team.has(role));
  if (there.length === 0) return [];
  return type === 'all of' ? there.map((role) => [role]) : [there];
}

/** Work that asks for more people than may do it; found by augmenting paths. */
function shortOf(
  choice: readonly LaneWork[],
  team: ReadonlySet<string>,
): { readonly work: readonly LaneWork[]; readonly roles: readonly string[] } | undefined {
  const demands = choice.flatMap((work) => demandsOf(work, team).map((roles) => ({ work, roles })));
  const doneBy = new Map<string, number>();
  for (let start = 0; start < demands.length; start++) {
    const tried = new Set<string>();
    const give = (demand: number): boolean =>
      (demands[demand]?.roles ?? []).some((role) => {
        if (tried.has(role)) return false;
        tried.add(role);
        const busy = doneBy.get(role);
        if (busy !== undefined && !give(busy)) return false;
        doneBy.set(role, demand);
        return true;
      });
    if (give(start)) continue;
    const short = [start, ...[...tried].flatMap((role) => doneBy.get(role) ?? [])].sort((a, b) => a - b);
    const named = short.map((demand) => demands[demand]);
    const alone = named.flatMap((demand) => (demand?.work.hands.type === 'all of' ? demand.roles : []));
    if (new Set(alone).size < alone.length) return undefined;
    return {
      work: [...new Set(named.flatMap((demand) => demand?.work ?? []))],
      roles: [...team].filter((role) => tried.has(role)),
    };
  }
  return undefined;
}

/** Stretches of which every two meet all meet at one moment. */
function surely(work: readonly LaneWork[]): TooFewHands['answer'] | undefined {
  let answer: TooFewHands['answer'] = 'always';
  for (const [number, one] of work.entries())
    for (const other of work.slice(number + 1)) {
      const two = meeting(one, other);
      if (two === 'never' || two === 'not told') return undefined;
      if (two === 'can') answer = 'can';
    }
  return answer;
}
