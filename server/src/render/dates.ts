import type { Settings, TimelineVisit } from '@curette/shared';
import type { ProtocolFacts } from '../analysis/protocol/protocol.ts';
import { type FirstVisit, type VisitTrouble, visitDates } from '../analysis/protocol/visit-dates.ts';

/** The day of the first visit, as read and as given, and the days on which the place is closed. */
export interface VisitCalendar {
  readonly first: FirstVisit;
  readonly given: string;
  readonly settings: Settings;
}

export type Dates = ReadonlyMap<number, NonNullable<TimelineVisit['dates']>>;

/** When each visit can be, by its statement. */
export function datesOf({ context, statement }: ProtocolFacts, { first, settings }: VisitCalendar): Dates {
  return new Map(
    visitDates(context.module, statement, first, settings).map(({ visit, window, open, trouble }) => [
      visit.id,
      {
        earliest: (open ? open.first : window?.earliest) ?? null,
        latest: (open ? open.last : window?.latest) ?? null,
        days: open?.days ?? null,
        note: trouble === undefined ? null : TROUBLES[trouble],
      },
    ]),
  );
}

const TROUBLES: Readonly<Record<VisitTrouble, string>> = {
  closed: 'a closed day',
  'no open day': 'no day in it is open',
  'not told': 'nothing says how long to wait before it',
  'part of a month': 'a part of a month has no fixed number of days',
  'too far': 'further than days can be counted',
};
