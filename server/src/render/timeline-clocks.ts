import type { TimelineClock } from '@curette/shared';
import { answerOf, type ClockReading, type TimeReading, visitClocks } from '../analysis/protocol/clock-readings.ts';
import type { FlowId } from '../analysis/protocol/flow.ts';
import { labelOf } from '../analysis/protocol/flow-words.ts';
import { whenWords } from '../analysis/protocol/possibility.ts';
import type { ProtocolFacts, VisitFacts } from '../analysis/protocol/protocol.ts';
import { type ScheduleEntry, scheduleOf } from '../analysis/protocol/schedule.ts';
import { limitOfRule } from '../analysis/protocol/word-rule-clock.ts';
import { ageWords } from './limits.ts';
import { plain, sentence } from './text.ts';
import type { Said } from './timeline-rows.ts';
import { endlessToNull, lastsWords, lengthWords, moment } from './timeline-words.ts';
import { thingWords } from './words.ts';

/** The clocks that run in a visit, of states and of rules; those that differ in nothing but the thing are one. */
export function timelineClocks(protocol: ProtocolFacts, visit: VisitFacts, said: Said): TimelineClock[] {
  const entries = new Map(scheduleOf(protocol, visit).entries.map((entry) => [entry.flow.id, entry]));
  const { readings, rules } = visitClocks(protocol.course(), visit);
  const groups = new Map<string, ClockReading[]>();
  for (const reading of readings.values()) {
    const { need, flow, since, least, most, when } = reading;
    const key = [since, flow.id, need.state, least, most, whenWords(when)].join('\n');
    groups.set(key, [...(groups.get(key) ?? []), reading]);
  }
  const making: Making = { entries, said };
  return [
    ...[...groups.values()].flatMap((all) => {
      const [first] = all;
      if (!first) return [];
      const things = [...new Set(all.map((one) => thingWords(one.need.thing)))].join(', ');
      const text = `${sentence(things)} ${plain(first.need.state)}`;
      return [clockOf(making, first, text, ageWords(first.need) ?? lengthWords(first.least))];
    }),
    ...[...rules.values()].map((reading) => clockOf(making, reading, reading.rule.label, limitOfRule(reading))),
  ];
}

interface Making {
  readonly entries: ReadonlyMap<FlowId, ScheduleEntry>;
  readonly said: Said;
}

function clockOf({ entries, said }: Making, reading: TimeReading, text: string, allowed: string): TimelineClock {
  const { flow, since, when, least, most } = reading;
  const given = givenBy(reading);
  const began = since === undefined ? undefined : entries.get(since);
  const from = since === undefined ? undefined : said(since);
  const until = said(flow.id);
  const circumstances = whenWords(when);
  return {
    text,
    since: began && from ? { label: from.label, number: from.number, at: moment(began.end) } : null,
    until: {
      label: until?.label ?? labelOf(flow),
      number: until?.number ?? null,
      at: moment(entries.get(flow.id)?.start ?? { lo: 0, hi: 0 }),
    },
    when: circumstances === '' ? null : circumstances,
    // Of a limit that is an upper one only, any time from none on is allowed.
    allowed: { shortest: Math.max(0, least), longest: endlessToNull(most) },
    given: given ? { shortest: given.lo, longest: endlessToNull(given.hi) } : null,
    answer: answerOf(reading),
    words: {
      allowed,
      given: given ? (lastsWords(given) ?? '0 min') : null,
      answer: answerWords(reading),
    },
  };
}

/** Of a limit that is known to hold, what was added up in a vaguer way is not told where it lies outside. */
function givenBy({
  elapsed,
  soon,
  late,
  least,
  most,
}: TimeReading): { readonly lo: number; readonly hi: number } | undefined {
  if (!elapsed) return undefined;
  const lo = soon === 'holds' ? Math.max(elapsed.lo, least) : elapsed.lo;
  return { lo, hi: Math.max(lo, late === 'holds' ? Math.min(elapsed.hi, most) : elapsed.hi) };
}

/** "holds", "can break: too soon", "always breaks: too late" */
function answerWords(reading: TimeReading): string {
  const answer = answerOf(reading);
  switch (answer) {
    case 'holds':
      return reading.choice?.type === 'kept' ? 'holds if the waits are chosen in view of it' : 'holds';
    case 'not told':
      return reading.reason === 'side by side' ? 'cannot be told: side by side' : 'cannot be told';
    case 'can break':
    case 'always breaks':
      return `${answer}: ${[reading.soon === answer && 'too soon', reading.late === answer && 'too late'].filter(Boolean).join(', ')}`;
    default:
      return answer satisfies never;
  }
}
