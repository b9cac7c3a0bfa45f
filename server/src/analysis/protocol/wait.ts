import type { Expr, Span, WaitStatement } from '@curette/grammar';
import { dimension, formatSource, longest, type Quantity, shortest } from '@curette/shared';
import { outlastsState } from '../../problems/outlasts_state.ts';
import { type Mend, problemAt, type Report } from '../../problems/problem.ts';
import { undecidedNeed } from '../../problems/undecided.ts';
import { unknownState } from '../../problems/unknown_state.ts';
import { waitForRange } from '../../problems/wait_for_range.ts';
import { wrongMeasure } from '../../problems/wrong_measure.ts';
import { zeroTime } from '../../problems/zero_time.ts';
import { outlasted } from '../kinds/age.ts';
import { clockTime, notStated, readClockTime, readWait } from '../kinds/duration.ts';
import { placeOf } from '../model.ts';
import { evaluate, type Unsaid } from '../rules/evaluate.ts';
import type { WaitFlow } from './flow.ts';
import type { NameScope } from './name-scope.ts';
import { ageLimit, limitUnsaid } from './plan.ts';
import { thingOrReport } from './step.ts';
import type { Thing } from './things.ts';
import { trackIndex, trackWith } from './track.ts';
import { undecidedProblem } from './undecided.ts';

type Wait = Pick<WaitFlow, 'duration' | 'until' | 'passing'>;

/** How long a wait inside a visit lasts: a time, or until a thing has been in a state for a time. */
export function lowerWait(scope: NameScope, monitors: number, item: WaitStatement, report: Report): Wait {
  const { module } = scope;
  const { duration, until } = item;
  if (duration) return { ...unknownWait, duration: readWait(module, item, duration, report) };
  if ((until?.type !== 'is' || until.negated) && until?.type !== 'state') {
    if (until)
      report(
        problemAt(undecidedNeed, placeOf(module.id, item, item.head), {
          what: 'how long this wait lasts',
          missing: 'a state and a time (wait until … is … for …)',
          rule: undefined,
        }),
      );
    return unknownWait;
  }
  const path = until.subject.type === 'path' ? until.subject : undefined;
  const state = until.type === 'is' ? until.name : until.state;
  const thing = thingOrReport(scope, item, path, report);
  if (!thing || !state) return unknownWait;
  const track = trackWith(thing, state.text);
  if (!track) {
    const place = placeOf(module.id, item, state);
    const states = thing.kind.tracks.flatMap((other) => [...other.states]);
    report(problemAt(unknownState, place, { kind: thing.kind.label, state: state.text, states, place }));
    return unknownWait;
  }
  const index = trackIndex(thing, track, monitors);
  const passes = until.for ? undefined : thing.kind.ages.find((age) => age.then === state.text);
  if (passes) {
    const passing = { thing, index, from: passes.state, state: state.text };
    const lasts = ageLimit(scope, thing, passes.state);
    // It may have been in the state before for any part of the time that it lasts.
    if (lasts) return { until: undefined, passing, duration: { lo: 0, hi: lasts.seconds, stated: true } };
    reportUnsaid(
      scope,
      item,
      item.head,
      limitUnsaid(scope, thing, passes.state) ?? { missing: 'a longest time' },
      report,
    );
    return { ...unknownWait, passing };
  }
  const asked = until.for && readAge(scope, item, until.for, thing, state.text, report);
  if (until.for && !asked) return unknownWait;
  const seconds = until.for && asked ? withinLimit(scope, item, until.for, thing, state.text, asked, report) : 0;
  return {
    // At most the whole time, if the state has just begun; nothing at all, if it is old enough already.
    duration: { lo: 0, hi: seconds, stated: true },
    until: { thing, index, state: state.text, seconds },
    passing: undefined,
  };
}

const unknownWait: Wait = { duration: notStated, until: undefined, passing: undefined };

/** How old the state has to be: of a property that is a range, the shorter end. */
function readAge(
  scope: NameScope,
  item: WaitStatement,
  written: Expr,
  thing: Thing,
  state: string,
  report: Report,
): Quantity | undefined {
  const { module } = scope;
  const quantity =
    written.type === 'quantity'
      ? readClockTime(module, item, written, 'for', report)
      : evaluatedAge(scope, item, written, report);
  if (!quantity) return undefined;
  const place = placeOf(module.id, item, written);
  const least = shortest(quantity);
  if (written.type === 'quantity' && (written.form === 'range' || written.form === 'at most')) {
    const shorter = least && formatSource(least);
    report(problemAt(waitForRange, place, { thing: thing.label, state, asked: quantity, place, shorter }));
  } else if (quantity.range.hi === 0) {
    const mend: Mend = {
      title: 'Leave out the wait',
      edits: [{ type: 'remove', file: module.id, statement: item.id }],
    };
    report(problemAt(zeroTime, place, { what: 'wait', mends: [mend] }));
  } else if (!least) reportUnsaid(scope, item, written, { missing: 'a shortest time' }, report);
  return least;
}

/** A property that says how long, such as `granules.soak`. */
function evaluatedAge(scope: NameScope, item: WaitStatement, written: Expr, report: Report): Quantity | undefined {
  const { module } = scope;
  const value = evaluate(written, { module, filling: () => undefined, thing: scope.anyThing, state: undefined });
  if (value.type === 'quantity') return clockTime(module, item, written, 'for', value.quantity, report);
  if (value.type === 'unknown') reportUnsaid(scope, item, written, value, report);
  else {
    const place = placeOf(module.id, item, written);
    report(problemAt(wrongMeasure, place, { what: 'for', wanted: 'time', found: undefined }));
  }
  return undefined;
}

function reportUnsaid(scope: NameScope, item: WaitStatement, at: Span, unsaid: Unsaid, report: Report): void {
  const place = placeOf(scope.module.id, item, at);
  const about = { what: 'how long this wait lasts', rule: undefined };
  const problem = undecidedProblem(scope.module, place, about, unsaid);
  if (problem) report(problem);
}

/**
 * The seconds to wait. No state is waited for longer than it lasts: that is told, and read on as if the wait were as long as it
 * can be.
 */
function withinLimit(
  scope: NameScope,
  item: WaitStatement,
  written: Expr,
  thing: Thing,
  state: string,
  asked: Quantity,
  report: Report,
): number {
  const seconds = asked.range.lo;
  const lasts = ageLimit(scope, thing, state);
  if (!lasts || seconds <= lasts.seconds) return seconds;
  const { module } = scope;
  const place = placeOf(module.id, item, written);
  const limit = longest(lasts.limit) ?? lasts.limit;
  const text = formatSource(limit);
  report(
    problemAt(outlastsState, place, {
      ...outlasted(module, lasts.age, lasts.limit),
      sets: lasts.set ? [lasts.set] : [],
      what: 'wait',
      thing: `"${thing.label}"`,
      state,
      asked,
      mends:
        limit.dimension === dimension('time')
          ? [{ title: `Shorten to "${text}"`, edits: [{ type: 'replace', place, text }] }]
          : [],
    }),
  );
  return lasts.seconds;
}
