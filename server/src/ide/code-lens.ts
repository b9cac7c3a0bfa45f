import type { Body, Placed } from '@curette/grammar';
import { chairTimeOf } from '../analysis/protocol/chair-time.ts';
import { answerOf, type ClockAnswer, type ClockReading, visitClocks } from '../analysis/protocol/clock-readings.ts';
import { durationOf } from '../analysis/protocol/durations.ts';
import { forEachFlow } from '../analysis/protocol/flow.ts';
import type { ProtocolFacts, VisitFacts } from '../analysis/protocol/protocol.ts';
import { scheduleOf } from '../analysis/protocol/schedule.ts';
import type { FileId } from '../problems/problem.ts';
import type { Checked, Stretch } from './checked.ts';
import { timeRangeWords, timeWords } from './time-words.ts';

/** A line of small print above a visit. */
export interface CodeLens extends Stretch {
  /** the visit that it speaks of; what it says is worked out when it comes into view */
  readonly statement: number;
}

/** One over each visit of which something can be told. Lines inside of visits are not gone through. */
export function codeLenses(checked: Checked, id: FileId): readonly CodeLens[] {
  const facts = checked.facts(id);
  if (!facts) return [];
  const lenses: CodeLens[] = [];
  for (const top of statementsOf(facts.file.tree.body, 0)) {
    const protocol = facts.protocols.find(({ statement }) => statement.id === top.statement.id);
    if (!protocol || !top.statement.body) continue;
    for (const { statement, start } of statementsOf(top.statement.body, top.start)) {
      const visit = protocol.visits.find((other) => other.statement.id === statement.id);
      if (!visit?.items.some((flow) => durationOf(flow).hi > 0)) continue;
      const { head } = statement;
      lenses.push({ file: id, start: start + head.start, end: start + head.end, statement: statement.id });
    }
  }
  return lenses;
}

/**
 * How long the visit takes and how its limits on time stand: "In the chair 48–115 min, usually about 70 min, within 90 min in nine
 * of ten; 3 limits hold, 1 can break". Undefined when the visit is gone.
 */
export function lensTitle(checked: Checked, id: FileId, visit: number): string | undefined {
  for (const protocol of checked.facts(id)?.protocols ?? [])
    for (const facts of protocol.visits)
      if (facts.statement.id === visit)
        return [chairWords(protocol, facts), limitWords(protocol, facts)].filter((part) => part !== '').join('; ');
  return undefined;
}

function statementsOf({ items, offsets }: Body, base: number): readonly Placed[] {
  return items.map((statement, i) => ({ statement, start: base + (offsets[i] ?? 0) }));
}

function chairWords(protocol: ProtocolFacts, visit: VisitFacts): string {
  const { lo, hi } = scheduleOf(protocol, visit).chair;
  if (!Number.isFinite(hi))
    return lo > 0 ? `In the chair at least ${timeWords(lo, 'down')}` : 'Time in the chair not stated';
  return `In the chair ${timeRangeWords(lo, hi)}${usualWords(protocol, visit)}`;
}

/** How long the visit usually takes, from many runs of it; only where what is usual is said of at least half of the time that varies. */
function usualWords(protocol: ProtocolFacts, visit: VisitFacts): string {
  let varying = 0;
  let said = 0;
  forEachFlow(visit.items, ({ type, duration: { lo, hi, usual } }) => {
    if (lo === hi || type === 'wait') return;
    varying += hi - lo;
    if (usual !== undefined) said += hi - lo;
  });
  const time = said > 0 && said * 2 >= varying ? chairTimeOf(protocol, visit) : undefined;
  return time ? `, usually about ${aboutWords(time.median)}, within ${timeWords(time.p90, 'up')} in nine of ten` : '';
}

/** To five minutes from an hour on: it is no more than about that. */
function aboutWords(seconds: number): string {
  const step = seconds >= 3600 ? 300 : 60;
  return timeWords(Math.max(step, Math.round(seconds / step) * step));
}

/** How many limits there are of each answer; a limit that is read on several paths counts once, as on the worst of them. */
function limitWords(protocol: ProtocolFacts, visit: VisitFacts): string {
  const { readings, conflicts } = visitClocks(protocol.course(), visit);
  const worst = new Map<string, ClockAnswer>();
  const count = (reading: ClockReading, answer: ClockAnswer) => {
    const limit = `${reading.flow.id} ${reading.need.index} ${reading.need.state}`;
    const before = worst.get(limit);
    if (before === undefined || ANSWERS.indexOf(answer) > ANSWERS.indexOf(before)) worst.set(limit, answer);
  };
  for (const reading of readings.values()) count(reading, answerOf(reading));
  // Each of them can be kept, but not all of them.
  for (const { clocks, always } of conflicts)
    for (const reading of clocks) if ('need' in reading) count(reading, always ? 'always breaks' : 'can break');
  const answers = [...worst.values()];
  const parts = ANSWERS.flatMap((answer) => {
    const count = answers.filter((other) => other === answer).length;
    return count > 0 ? [{ count, answer }] : [];
  });
  return parts
    .map(
      ({ count, answer }, i) => `${count}${i > 0 ? '' : count === 1 ? ' limit' : ' limits'} ${spoken(answer, count)}`,
    )
    .join(', ');
}

/** From the best to the worst. */
const ANSWERS: readonly ClockAnswer[] = ['holds', 'not told', 'can break', 'always breaks'];

function spoken(answer: ClockAnswer, count: number): string {
  switch (answer) {
    case 'holds':
      return count === 1 ? 'holds' : 'hold';
    case 'can break':
      return 'can break';
    case 'always breaks':
      return count === 1 ? 'always breaks' : 'always break';
    case 'not told':
      return 'cannot be told';
    default:
      return answer satisfies never;
  }
}
