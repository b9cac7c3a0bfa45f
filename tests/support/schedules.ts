/** The schedule of a fixture's first protocol, as lines that can be read in a test. */
import { type ChairTime, chairTimeOf } from '../../server/src/analysis/protocol/chair-time.ts';
import { labelOf } from '../../server/src/analysis/protocol/flow-words.ts';
import type { ProtocolFacts, VisitFacts } from '../../server/src/analysis/protocol/protocol.ts';
import { scheduleOf, type VisitSchedule } from '../../server/src/analysis/protocol/schedule.ts';
import { factsOf, readFixture } from './fixture.ts';

/** The first visit of a fixture, and the protocol it is of. */
export function visitIn(text: string): { readonly protocol: ProtocolFacts; readonly visit: VisitFacts } {
  const fixture = readFixture(text);
  const protocol = factsOf(fixture)('main.curette')?.protocols[0];
  const visit = protocol?.visits[0];
  if (!protocol || !visit) throw new Error('the fixture has no visit');
  return { protocol, visit };
}

export function scheduleIn(text: string): VisitSchedule {
  const { protocol, visit } = visitIn(text);
  return scheduleOf(protocol, visit);
}

export function chairTimeIn(text: string): ChairTime | undefined {
  const { protocol, visit } = visitIn(text);
  return chairTimeOf(protocol, visit);
}

/** "quick site: 2..4 to 4..8": when each event begins and ends, in minutes. */
export function windowsIn(text: string): string[] {
  return scheduleIn(text).entries.map(
    ({ flow, start, end }) => `${labelOf(flow)}: ${minutes(start)} to ${minutes(end)}`,
  );
}

/** "quick site: critical", "quick site: 9": minutes that an event may take longer. */
export function slackIn(text: string): string[] {
  return scheduleIn(text).entries.map(
    ({ flow, critical, slack }) => `${labelOf(flow)}: ${critical ? 'critical' : slack / 60}`,
  );
}

/** "quick site: 5": minutes that an event may begin later; those that no limit spans are left out. */
export function sparesIn(text: string): string[] {
  return scheduleIn(text).entries.flatMap(({ flow, spare }) =>
    spare === undefined ? [] : [`${labelOf(flow)}: ${spare / 60}`],
  );
}

/** "assistant (Graft): 0..13 from 23..25": who waits how long, in minutes, and from when. */
export function idleIn(text: string): string[] {
  return scheduleIn(text).idle.map(({ lane, by, from, lasts }) => {
    const who = by.length > 0 ? by.join(', ') : 'everybody';
    return `${who}${lane === undefined ? '' : ` (${lane})`}: ${minutes(lasts)} from ${minutes(from)}`;
  });
}

export function minutes({ lo, hi }: { readonly lo: number; readonly hi: number }): string {
  const end = Number.isFinite(hi) ? `${hi / 60}` : '';
  return lo === hi ? end : `${lo / 60}..${end}`;
}
