import type { Statement } from '@curette/grammar';
import { problemAt, type Report } from '../../problems/problem.ts';
import { timeOutsideAction } from '../../problems/time_outside_action.ts';
import { type Takes, withoutTakes } from '../kinds/duration.ts';
import { type Action, type Duration, type Pause, placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';

/** Ends that are written in two units differ by no more than this part of them. */
const ROUNDING = 1e-9;

/** A step's or a pause's own time overlaps the one that its action or its declaration states. */
export function checkTimeTaken(
  module: Module,
  statement: Statement,
  takes: Takes,
  own: Duration,
  of: Action | Pause,
  report: Report,
): void {
  const node = takes.duration;
  const shorter = own.hi < of.takes.lo * (1 - ROUNDING);
  const longer = own.lo > of.takes.hi * (1 + ROUNDING);
  // That it takes no time at all is told already.
  if (!node || own.hi === 0 || (!shorter && !longer)) return;
  const declared = of.statement.body?.items.find((item) => item.type === 'takes');
  const stated = declared?.type === 'takes' ? declared.duration : undefined;
  const here = module.quantity(node);
  const there = stated && module.module(of.file)?.quantity(stated);
  if (!declared || !stated || !here || !there) return;
  const place = placeOf(module.id, statement, node);
  report(
    problemAt(timeOutsideAction, place, {
      what: of.label,
      here,
      stated: there,
      shorter,
      place,
      declared: placeOf(of.file, declared, stated),
      leaveOut: withoutTakes(module, statement, takes),
    }),
  );
}
