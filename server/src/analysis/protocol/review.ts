import type { ProtocolStatement, StatementOf } from '@curette/grammar';
import { problemAt, type Report } from '../../problems/problem.ts';
import { reviewDate } from '../../problems/review_date.ts';
import { reviewNotDated } from '../../problems/review_not_dated.ts';
import { reviewOverdue } from '../../problems/review_overdue.ts';
import { wrongMeasure } from '../../problems/wrong_measure.ts';
import { addSpan, type CalendarDate, compareDates, readDate, writeDate } from '../calendar/date.ts';
import { type Span, spanRangeOf } from '../calendar/span.ts';
import { placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';

type Dated = StatementOf<'reviewed' | 'approved'>;

/** When a protocol is to be reviewed next: so long after its last review or, where none is written, its approval. */
export interface ReviewDue {
  readonly last: CalendarDate;
  readonly counted: Dated['type'];
  /** the last day on which the review is not overdue */
  readonly due: CalendarDate;
}

/** Undefined where nothing can be counted: no `review every`, no date, or none that exists. */
export function reviewDueOf(module: Module, statement: ProtocolStatement): ReviewDue | undefined {
  const items = statement.body?.items ?? [];
  const every = items.find((item) => item.type === 'review')?.every;
  const quantity = every && module.quantity(every);
  const last = lastDay(items, 'reviewed') ?? lastDay(items, 'approved');
  if (!quantity || !last) return undefined;
  const reading = spanRangeOf(quantity);
  let span: Span;
  if (reading.ok) span = reading.range.hi ?? reading.range.lo;
  else if (reading.fault === 'part of a month') span = { months: Math.floor(reading.months), days: 0, seconds: 0 };
  else return undefined;
  const due = addSpan(last.day, span);
  return due && { last: last.day, counted: last.type, due };
}

/**
 * The days of review and approval exist and have come, and the review is not overdue. Nobody works by a draft or a retired protocol:
 * theirs is not asked for.
 * @param today ISO 8601
 */
export function checkReview(module: Module, statement: ProtocolStatement, today: string, report: Report): void {
  const items = statement.body?.items ?? [];
  const now = readDate(today);
  if (!now) return;
  for (const item of items) {
    if ((item.type !== 'reviewed' && item.type !== 'approved') || !item.date) continue;
    const day = readDate(item.date.text);
    if (!day || compareDates(day, now) > 0)
      report(
        problemAt(reviewDate, placeOf(module.id, item, item.date), {
          what: item.type,
          written: item.date.text,
          today: day && today,
        }),
      );
  }
  const review = items.find((item) => item.type === 'review');
  if (!review?.every) return;
  const quantity = module.quantity(review.every);
  const place = placeOf(module.id, review, review.every);
  if (quantity) {
    const reading = spanRangeOf(quantity);
    if (!reading.ok && reading.fault === 'not time')
      report(problemAt(wrongMeasure, place, { what: 'review', wanted: 'time', found: quantity }));
  }
  const status = items.find((item) => item.type === 'status')?.status?.text;
  if (status === 'draft' || status === 'retired') return;
  const owner = items.find((item) => item.type === 'owner')?.owner?.value;
  const counted = reviewDueOf(module, statement);
  if (counted && compareDates(now, counted.due) > 0)
    report(
      problemAt(reviewOverdue, place, {
        due: writeDate(counted.due),
        last: writeDate(counted.last),
        counted: counted.counted,
        owner,
      }),
    );
  const dated = items.some((item) => item.type === 'reviewed' || item.type === 'approved');
  if (status === 'approved' && !dated) report(problemAt(reviewNotDated, place, {}));
}

function lastDay(
  items: NonNullable<ProtocolStatement['body']>['items'],
  type: Dated['type'],
): { readonly type: Dated['type']; readonly day: CalendarDate } | undefined {
  const days = items.flatMap((item) => {
    const day = item.type === type && item.date ? readDate(item.date.text) : undefined;
    return day ? [day] : [];
  });
  const day = days.toSorted(compareDates).at(-1);
  return day && { type, day };
}
