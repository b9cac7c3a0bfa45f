import type { TimelineClock } from '@curette/shared';
import { answerOf, type ClockReading, readClocks } from '../analysis/protocol/clock-readings.ts';
import { whenWords } from '../analysis/protocol/possibility.ts';
import type { ProtocolFacts, VisitFacts } from '../analysis/protocol/protocol.ts';
import { type ScheduleEntry, scheduleOf } from '../analysis/protocol/schedule.ts';
import { ageWords } from './limits.ts';
import { plain, sentence } from './text.ts';
import { moment, type Said } from './timeline.ts';
import { endlessToNull, lastsWords, lengthWords } from './timeline-words.ts';
import { thingWords } from './words.ts';

/** The clocks that run in a visit; those that differ in nothing but the thing are one. */
export function timelineClocks(protocol: ProtocolFacts, visit: VisitFacts, said: Said): TimelineClock[] {
  const entries = new Map(scheduleOf(protocol, visit).entries.map((entry) => [entry.flow.id, entry]));
  const groups = new Map<string, ClockReading[]>();
  for (const reading of readClocks(protocol, visit)) {
    const { need, flow, since, least, most, when } = reading;
    const key = [since, flow.id, need.state, least, most, whenWords(when)].join('\n');
    groups.set(key, [...(groups.get(key) ?? []), reading]);
  }
  return [...groups.values()].flatMap((readings) => {
    const [first] = readings;
    return first ? [clockOf(first, readings, entries, said)] : [];
  });
}

function clockOf(
  reading: ClockReading,
  all: readonly ClockReading[],
  entries: ReadonlyMap<ScheduleEntry['flow']['id'], ScheduleEntry>,
  said: Said,
): TimelineClock {
  const { need, flow, since, when, least, most, elapsed } = reading;
  const began = since === undefined ? undefined : entries.get(since);
  const from = since === undefined ? undefined : said(since);
  const until = said(flow.id);
  const things = [...new Set(all.map((one) => thingWords(one.need.thing)))].join(', ');
  const circumstances = whenWords(when);
  return {
    text: `${sentence(things)} ${plain(need.state)}`,
    since: began && from ? { label: from.label, number: from.number, at: moment(began.end) } : null,
    until: {
      label: until?.label ?? plain(flow.verb),
      number: until?.number ?? null,
      at: moment(entries.get(flow.id)?.start ?? { lo: 0, hi: 0 }),
    },
    when: circumstances === '' ? null : circumstances,
    allowed: { shortest: least, longest: endlessToNull(most) },
    given: elapsed ? { shortest: elapsed.lo, longest: endlessToNull(elapsed.hi) } : null,
    answer: answerOf(reading),
    words: {
      allowed: ageWords(need) ?? lengthWords(least),
      given: elapsed ? (lastsWords(elapsed) ?? '0 min') : null,
      answer: answerWords(reading),
    },
  };
}

/** "holds", "can break: too soon", "always breaks: too late" */
function answerWords(reading: ClockReading): string {
  const answer = answerOf(reading);
  switch (answer) {
    case 'holds':
      return 'holds';
    case 'not told':
      return reading.reason === 'side by side' ? 'cannot be told: side by side' : 'cannot be told';
    case 'can break':
    case 'always breaks':
      return `${answer}: ${[reading.soon === answer && 'too soon', reading.late === answer && 'too late'].filter(Boolean).join(', ')}`;
    default:
      return answer satisfies never;
  }
}
