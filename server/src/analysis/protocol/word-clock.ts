import { formatQuantity, longest, type Quantity, shortest } from '@curette/shared';
import { clockBroken } from '../../problems/clock_broken.ts';
import { type Mend, type Problem, problemAt } from '../../problems/problem.ts';
import { timeNotStated } from '../../problems/time_not_stated.ts';
import { readClock } from './clock-readings.ts';
import { siteOf } from './flow.ts';
import { labelOf, placeAtThing, timeQuantity } from './flow-words.ts';
import { insertStep } from './mends.ts';
import { whenWords } from './possibility.ts';
import type { StateFinding } from './states.ts';
import type { Telling } from './telling.ts';

/** Both ends of a time that is asked for, each with the run that breaks it. */
export function wordClock(telling: Telling, finding: Extract<StateFinding, { type: 'clock' }>): Problem[] {
  const { need, flow, since } = finding;
  const { module } = telling;
  const clock = readClock(telling.course(), finding);
  const place = placeAtThing(flow, need.thing);
  const began = since === undefined ? undefined : telling.flow(since);
  const shared = {
    thing: need.thing.label,
    state: need.state,
    step: labelOf(flow),
    began: began && labelOf(began),
    beganPlace: began && siteOf(began),
    when: whenWords(finding.when),
  };
  const { elapsed, least, most } = clock;
  if (!elapsed)
    return [
      problemAt(timeNotStated, place, {
        ...shared,
        limit: limitWords(need),
        steps: [],
        reason: clock.reason ?? 'not stated',
      }),
    ];
  if (clock.soon === 'holds' && clock.late === 'holds') return [];
  const { lo, hi } = elapsed;

  const byAge = need.lasts !== undefined && most === need.lasts.seconds && most !== need.age?.hi;
  const data = {
    ...shared,
    between: elapsed.between().map((part) => ({
      label: labelOf(part.flow),
      lo: part.duration.lo,
      hi: part.duration.hi,
      place: siteOf(part.flow),
    })),
    because: need.ground.because,
    then: need.lasts?.age.then,
  };
  const note = (name: string | undefined, file: string) => module.citation(name) ?? module.module(file)?.citation(name);
  const ofNeed = note(sourceOfLimit(need), need.ground.place.file) ?? note(need.ground.source, need.ground.place.file);
  const problems: Problem[] = [];
  // How long somebody waits from one visit to the next is not stated: then nothing can be told, unless it is too late already.
  if (elapsed.gap && clock.late !== 'always breaks')
    return [problemAt(timeNotStated, place, { ...shared, limit: limitWords(need), steps: [], reason: 'other visit' })];
  if (clock.soon !== 'holds')
    problems.push(
      problemAt(clockBroken, place, {
        ...data,
        side: 'too soon',
        always: clock.soon === 'always breaks',
        seconds: lo,
        longest: hi,
        limit: endWritten(need.ageText, 'shortest') ?? formatQuantity(timeQuantity(least)),
        source: ofNeed,
        mends: waitMend(telling, finding, least),
      }),
    );
  if (clock.late === 'not told')
    problems.push(
      problemAt(timeNotStated, place, {
        ...shared,
        limit: limitWords(need),
        steps: elapsed
          .between()
          .filter((part) => !part.duration.stated)
          .map((part) => ({ label: labelOf(part.flow), place: siteOf(part.flow) })),
        reason: 'not stated',
      }),
    );
  else if (clock.late !== 'holds')
    problems.push(
      problemAt(clockBroken, place, {
        ...data,
        side: 'too late',
        always: clock.late === 'always breaks',
        seconds: clock.late === 'always breaks' ? lo : hi,
        longest: hi,
        limit: endWritten(byAge ? need.lasts?.limit : need.ageText, 'longest') ?? formatQuantity(timeQuantity(most)),
        source: byAge
          ? (note(need.lasts?.age.ground.source, need.lasts?.age.ground.place.file ?? '') ?? ofNeed)
          : ofNeed,
        mends: [],
      }),
    );
  return problems;
}

/** An end of a limit in the unit its author chose. */
function endWritten(limit: Quantity | undefined, end: 'shortest' | 'longest'): string | undefined {
  const quantity = limit && (end === 'shortest' ? shortest(limit) : longest(limit));
  return quantity && formatQuantity(quantity);
}

function sourceOfLimit(need: Extract<StateFinding, { type: 'clock' }>['need']): string | undefined {
  if (need.ground.source) return need.ground.source;
  // The limit is a property of the thing: what its entry says it rests on.
  for (const value of need.thing.values.values()) {
    const [first] = value.values;
    if (first?.type === 'quantity' && first.quantity === need.ageText) return value.ground.source;
  }
  return undefined;
}

function waitMend(telling: Telling, finding: Extract<StateFinding, { type: 'clock' }>, least: number): readonly Mend[] {
  const { flow, need } = finding;
  if (flow.call) return [];
  return [
    insertStep(
      `Wait until ${need.thing.label} is ${need.state.replaceAll('_', ' ')} for ${formatQuantity(timeQuantity(least))}`,
      `wait until ${need.thing.name} is ${need.state} for ${sourceTime(least)}`,
      { where: 'before', file: telling.module.id, statement: flow.statement.id },
    ),
  ];
}

function limitWords(need: Extract<StateFinding, { type: 'clock' }>['need']): string {
  if (need.ageText) return formatQuantity(need.ageText);
  return need.lasts ? `at most ${formatQuantity(need.lasts.limit)}` : '';
}

function sourceTime(seconds: number): string {
  const quantity = timeQuantity(seconds);
  return `${quantity.range.lo / quantity.unit.factor} ${quantity.unit.canonical}`;
}
