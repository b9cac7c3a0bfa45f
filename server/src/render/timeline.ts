import type { StatementOf } from '@curette/grammar';
import type { Timeline, TimelineGap, TimelineIdle, TimelineVisit } from '@curette/shared';
import type { FileFacts } from '../analysis/analysis.ts';
import type { CaseFacts } from '../analysis/cases/case.ts';
import { chairTimeOf } from '../analysis/protocol/chair-time.ts';
import type { Idle } from '../analysis/protocol/idle.ts';
import type { ProtocolFacts, VisitFacts } from '../analysis/protocol/protocol.ts';
import { scheduleOf } from '../analysis/protocol/schedule.ts';
import { roleWords } from './checklist-steps.ts';
import { type Dates, datesOf, type VisitCalendar } from './dates.ts';
import { type Lines, linesOf } from './lines.ts';
import { sheetHeadOf } from './sheet-head.ts';
import { plain, sentence } from './text.ts';
import { timelineClocks } from './timeline-clocks.ts';
import { type Said, timelineRows } from './timeline-rows.ts';
import { beginsWords, endlessToNull, lastsWords, moment } from './timeline-words.ts';
import { measureWords } from './words.ts';

/**
 * When the steps of a protocol can take place, ready to be drawn.
 * @param file the file that declares it
 * @param calendar the day of the first visit, as read and as given, and the days on which the place is closed
 * @param factsOf gives the facts of the files it uses: a protocol that stands on a faulty file is not fit for use either
 * @param ofCase the case whose facts are in the protocol, declared in `file`
 */
export function timelineOf(
  file: FileFacts,
  protocol: ProtocolFacts,
  factsOf: (id: string) => FileFacts | undefined,
  calendar?: VisitCalendar,
  ofCase?: CaseFacts,
): Timeline {
  const { module, things } = protocol.context;
  return {
    ...sheetHeadOf(file, protocol, factsOf, ofCase).sheet,
    first: calendar?.given ?? null,
    team: [...things.team].map((role) => roleWords(module, role)),
    course: courseOf(protocol, linesOf(file, protocol, factsOf), calendar && datesOf(protocol, calendar)),
  };
}

function courseOf(protocol: ProtocolFacts, lines: Lines, dates: Dates | undefined): Timeline['course'] {
  const visits = new Map(protocol.visits.map((visit) => [visit.statement.id, visit]));
  return (protocol.statement.body?.items ?? []).flatMap((item): Timeline['course'] => {
    if (item.type === 'wait') return [gap(protocol, lines, item)];
    const visit = visits.get(item.id);
    return visit ? [visitOf(protocol, visit, lines, dates?.get(item.id) ?? null)] : [];
  });
}

function gap(protocol: ProtocolFacts, lines: Lines, wait: StatementOf<'wait'>): TimelineGap {
  return {
    type: 'gap',
    line: lines(protocol.context.module.id, wait),
    text: wait.duration ? measureWords(protocol.context.module, wait.duration) : '',
    because: wait.because?.value ?? null,
  };
}

function visitOf(
  protocol: ProtocolFacts,
  visit: VisitFacts,
  lines: Lines,
  dates: TimelineVisit['dates'],
): TimelineVisit {
  const { statement } = visit;
  const schedule = scheduleOf(protocol, visit);
  const { chair, idle } = schedule;
  const { rows, said } = timelineRows(protocol.context, visit.items, schedule, lines);
  // Of a visit in which nothing takes a stated time there is nothing to play.
  const time = chair.hi > 0 ? chairTimeOf(protocol, visit) : undefined;
  return {
    type: 'visit',
    line: lines(protocol.context.module.id, statement),
    name: statement.name?.text ?? '',
    label: statement.label?.value ?? sentence(plain(statement.name?.text ?? 'visit')),
    chair: { shortest: chair.lo, longest: endlessToNull(chair.hi) },
    time: lastsWords(chair),
    played: time
      ? {
          median: time.median,
          p90: time.p90,
          samples: time.samples,
          seed: time.seed,
          drawn: time.drawn,
          evenly: time.withoutUsual,
          decisions: time.decisions,
        }
      : null,
    series: rows.every((row) => row.critical),
    dates,
    rows,
    clocks: timelineClocks(protocol, visit, said),
    idle: idle.map((one) => idleWords(protocol, one, said)),
  };
}

function idleWords(protocol: ProtocolFacts, idle: Idle, said: Said): TimelineIdle {
  const { flow, lane, by, from, until, lasts } = idle;
  const who = by.map((role) => roleWords(protocol.context.module, role));
  return {
    number: lane === undefined ? (said(flow.id)?.number ?? null) : null,
    lane: lane ?? null,
    text: lane === undefined ? (said(flow.id)?.label ?? 'Wait') : `“${sentence(lane)}” waits for the others`,
    who,
    from: moment(from),
    until: moment(until),
    lasts: { shortest: lasts.lo, longest: endlessToNull(lasts.hi) },
    words: { from: beginsWords(from), lasts: lastsWords(lasts) ?? 'how long is not said' },
  };
}
