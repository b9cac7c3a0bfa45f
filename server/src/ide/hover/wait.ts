import type { StatementOf } from '@curette/grammar';
import { formatQuantity, isCalendar, type Quantity } from '@curette/shared';
import { daysIn } from '../../analysis/calendar/month-lengths.ts';
import { type Span, spanRangeOf } from '../../analysis/calendar/span.ts';
import { DAY } from '../../analysis/kinds/seconds.ts';
import type { Ground } from '../../analysis/model.ts';
import {
  type AnyReading,
  answerOf,
  type ClockAnswer,
  type ClockReading,
  readClocks,
  visitClocks,
} from '../../analysis/protocol/clock-readings.ts';
import type { WaitFlow } from '../../analysis/protocol/flow.ts';
import { labelOf } from '../../analysis/protocol/flow-words.ts';
import type { StateNeed } from '../../analysis/protocol/plan.ts';
import type { ProtocolFacts, VisitFacts } from '../../analysis/protocol/protocol.ts';
import { scheduleOf } from '../../analysis/protocol/schedule.ts';
import { SAME_TIME } from '../../analysis/time/network.ts';
import { spoken } from '../as-written.ts';
import type { Checked } from '../checked.ts';
import { plainly } from '../markdown.ts';
import type { Surroundings } from '../surroundings.ts';
import { timeRangeWords, timeWords } from '../time-words.ts';
import { caution } from './caution.ts';
import { groundWords } from './values.ts';

/**
 * What a wait is for: the limits on time that reach over it, and what they make of its length. Empty where the line cannot be read as a
 * wait.
 */
export function waitHover(checked: Checked, around: Surroundings, wait: StatementOf<'wait'>): readonly string[] {
  const { protocol } = around;
  if (!protocol) return [];
  const flow = protocol.flow(wait.id);
  const within = around.path[1]?.statement;
  const visit = protocol.visits.find(({ statement }) => statement.id === within?.id);
  if (visit) return flow?.type === 'wait' ? inVisit(checked, protocol, visit, flow, wait) : [];
  return within === wait ? betweenVisits(checked, protocol, wait) : [];
}

/** A limit of more than so many times a wait does not hang on it. */
const LITTLE = 100;

function inVisit(
  checked: Checked,
  protocol: ProtocolFacts,
  visit: VisitFacts,
  flow: WaitFlow,
  wait: StatementOf<'wait'>,
): readonly string[] {
  if (!flow.until && !wait.duration) return [];
  const course = protocol.course();
  const over = protocol.visits
    .slice(protocol.visits.indexOf(visit))
    .flatMap((later) => readClocks(protocol, later))
    .filter(({ since, flow: step }) => course.between(since, flow.id).ok && course.between(flow.id, step.id).ok)
    // Minutes say nothing beside weeks.
    .filter(({ least, most }) => Math.max(least, Number.isFinite(most) ? most : 0) <= LITTLE * flow.duration.hi);
  const conflict = visitClocks(course, visit).conflicts.find(({ waits }) => waits.includes(flow));
  return [
    lengthWords(protocol, visit, flow),
    wait.because === undefined ? '' : `Why: ${plainly(wait.because.value)}`,
    ...limitWords(checked, protocol, over, conflict?.clocks ?? []),
    conflict
      ? `**They contradict each other**: no length of the wait ${conflict.always ? 'keeps them all' : 'is sure to keep them all'}.`
      : flow.until
        ? ''
        : keepingWords(flow, over),
    caution(over.length > 0),
  ];
}

/** How long it lasts, and who decides that. */
function lengthWords(protocol: ProtocolFacts, visit: VisitFacts, flow: WaitFlow): string {
  const { until, duration } = flow;
  if (until) {
    const what = `**Waits until ${plainly(until.thing.label)} is ${plainly(spoken(until.state))}${
      until.seconds > 0 ? ` for ${timeWords(until.seconds)}` : ''
    }**, and no longer`;
    const lasts = scheduleOf(protocol, visit).idle.find((idle) => idle.flow === flow)?.lasts;
    if (!lasts) return `${what}. Here that is so already when the wait begins: it takes no time.`;
    return `${what}: here it takes ${timeRangeWords(lasts.lo, lasts.hi)}.`;
  }
  const length = `**Waits ${timeRangeWords(duration.lo, duration.hi)}**`;
  return duration.lo < duration.hi ? `${length}: the team chooses, in view of how the work goes.` : `${length}.`;
}

/** The limits, those first that ask for time and so are served by the wait, then those that it uses time of. */
function limitWords(
  checked: Checked,
  protocol: ProtocolFacts,
  readings: readonly ClockReading[],
  contradicting: readonly AnyReading[],
): readonly string[] {
  if (readings.length === 0) return ['No limit on time reaches over it.'];
  const lines = (some: readonly ClockReading[]) => [
    ...new Set(some.map((reading) => `- ${limitLine(checked, protocol, reading, contradicting.includes(reading))}`)),
  ];
  const served = lines(readings.filter(({ least }) => least > 0));
  const using = lines(readings.filter(({ least }) => least === 0));
  return [
    served.length > 0 ? `It serves\n${served.join('\n')}` : '',
    using.length > 0 ? `It counts towards\n${using.join('\n')}` : '',
  ];
}

function limitLine(checked: Checked, protocol: ProtocolFacts, reading: ClockReading, contradicting: boolean): string {
  const { need, flow, since } = reading;
  const began = since === undefined ? undefined : protocol.flow(since);
  const age = need.ageText ? `for ${ageWords(need.ageText, need.age)}` : need.lasts ? lastsWords(need.lasts.limit) : '';
  const from = began ? `, counted from the end of "${labelOf(began)}"` : '';
  const limit = `**${plainly(need.thing.label)}** ${plainly(`${spoken(need.state)} ${age} when "${labelOf(flow)}" begins${from}`)}`;
  return `${limit}: ${contradicting ? 'could be kept by itself' : answerWords(reading)}.${groundWords(checked, groundOf(need))}`;
}

/** `for 10 min` asks for no less than that. */
function ageWords(age: Quantity, seconds: StateNeed['age']): string {
  const words = formatQuantity(age);
  const open = seconds && !Number.isFinite(seconds.hi) && Number.isFinite(age.range.hi);
  return open ? `at least ${words}` : words;
}

function lastsWords(limit: Quantity): string {
  const words = formatQuantity(limit);
  return words.startsWith('at most') ? words : `at most ${words}`;
}

function answerWords({ soon, late, choice }: ClockReading): string {
  if (choice?.type === 'kept') return 'holds, if the team waits in view of it';
  if (soon === 'can break' && late === 'can break') return '**can be too soon or too late**';
  const broken = new Set([sideWords(soon, 'soon'), sideWords(late, 'late')].filter((words) => words !== ''));
  return broken.size === 0 ? 'holds' : `**${[...broken].join(', ')}**`;
}

function sideWords(answer: ClockAnswer, side: 'soon' | 'late'): string {
  switch (answer) {
    case 'holds':
      return '';
    case 'can break':
      return `can be too ${side}`;
    case 'always breaks':
      return `is always too ${side}`;
    case 'not told':
      return 'cannot be told';
    default:
      return answer satisfies never;
  }
}

/** Why the limit stands: with the figure where a thing's own property is the limit, else with the need, else with the state. */
function groundOf(need: StateNeed): Ground {
  const { ground, ageText, lasts, thing } = need;
  const stated = [...thing.values.values()].find(
    ({ values: [first] }) => first?.type === 'quantity' && first.quantity === ageText,
  );
  const figure = ageText ? stated?.ground : lasts?.age.ground;
  return { ...(figure ?? ground), because: ground.because ?? figure?.because };
}

/** Which of the lengths that are written keep every limit, however long everything else takes. */
function keepingWords({ duration, id }: WaitFlow, readings: readonly ClockReading[]): string {
  if (duration.lo === duration.hi || readings.length === 0) return '';
  let { lo, hi } = duration;
  for (const { elapsed, least, most } of readings) {
    // In a lane, in an option or beside a wait for a state its length is not simply one of those that add up.
    const alone = elapsed?.between().some(({ flow }) => flow.id === id) === true && !elapsed.waits && !elapsed.open;
    if (!elapsed || !alone) return '';
    lo = Math.max(lo, least - (elapsed.lo - duration.lo));
    hi = Math.min(hi, most - (elapsed.hi - duration.hi));
  }
  const keeps = `${readings.length === 1 ? 'keeps the limit' : 'keeps every limit'}, however long the work around it takes`;
  if (lo > hi + SAME_TIME)
    return readings.every((reading) => answerOf(reading) === 'holds')
      ? 'No one length does for every run: the team has to choose as the work goes, and then every limit can be kept.'
      : '';
  if (lo <= duration.lo + SAME_TIME && hi >= duration.hi - SAME_TIME) return `Every length that is written ${keeps}.`;
  return `**${timeRangeWords(lo, hi)}** ${keeps}.`;
}

function betweenVisits(checked: Checked, protocol: ProtocolFacts, wait: StatementOf<'wait'>): readonly string[] {
  const items = protocol.statement.body?.items ?? [];
  const at = items.indexOf(wait);
  const visitAt = (statement: unknown) => protocol.visits.findIndex((visit) => visit.statement === statement);
  const earlier = visitAt(items.slice(0, at).findLast(({ type }) => type === 'visit'));
  const later = visitAt(items.slice(at).find(({ type }) => type === 'visit'));
  const [from, to] = [protocol.visits[earlier], protocol.visits[later]];
  const length = daysWords(protocol, wait);
  if (!from || !to || length === undefined) return [];
  const over = protocol.visits
    .slice(later)
    .flatMap((visit) => readClocks(protocol, visit))
    .filter(
      ({ since }) => since === undefined || protocol.visits.slice(0, later).some((visit) => visit.clock().has(since)),
    );
  const name = ({ statement }: VisitFacts) =>
    plainly(statement.label?.value ?? spoken(statement.name?.text ?? 'visit'));
  return [
    `**From "${name(from)}" to "${name(to)}"**: ${length}`,
    wait.because === undefined ? '' : `Why: ${plainly(wait.because.value)}`,
    ...limitWords(checked, protocol, over, []),
    caution(over.length > 0),
  ];
}

/** The earliest and the latest day; undefined where the wait's length cannot be read. */
function daysWords(protocol: ProtocolFacts, wait: StatementOf<'wait'>): string | undefined {
  const quantity = wait.duration && protocol.context.module.quantity(wait.duration);
  if (!quantity) return undefined;
  const reading = spanRangeOf(quantity);
  if (!reading.ok) return undefined;
  const { lo, hi } = reading.range;
  const first = daysOf(lo).lo;
  const last = hi && daysOf(hi).hi;
  const uneven = isCalendar(quantity.dimension) ? ' How many days a month has depends on the date.' : '';
  if (last === undefined) return `${days(first)} at the earliest; nothing says how long at most.${uneven}`;
  if (first === last) return `${days(first)}.`;
  return `${first} days at the earliest, ${days(last)} at the latest.${uneven}`;
}

function daysOf({ months, days, seconds }: Span): { readonly lo: number; readonly hi: number } {
  const calendar = daysIn(months);
  return {
    lo: calendar.lo + days + Math.floor(seconds / DAY),
    hi: calendar.hi + days + Math.ceil(seconds / DAY),
  };
}

function days(count: number): string {
  return count === 1 ? '1 day' : `${count} days`;
}
