import { SAME_TIME } from './network.ts';

/** A piece of work that takes `duration` and begins when all it comes `after` are done. Every name stands for one activity. */
export interface Activity<Name> {
  readonly name: Name;
  /** any unit of time, finite and not negative; all activities the same */
  readonly duration: number;
  readonly after: readonly Name[];
}

/** In the unit of the durations, since the beginning of the whole. */
export interface ActivityTimes {
  readonly earliestStart: number;
  readonly earliestFinish: number;
  /** without making the whole longer, as are the next two */
  readonly latestStart: number;
  readonly latestFinish: number;
  readonly slack: number;
  /** no slack: what makes it longer makes the whole longer */
  readonly critical: boolean;
}

export type CriticalPath<Name> =
  | { readonly ok: true; readonly length: number; readonly times: ReadonlyMap<Name, ActivityTimes> }
  /** each of these comes after the one before it, and the first after the last */
  | { readonly ok: false; readonly reason: 'cycle'; readonly cycle: readonly Name[] }
  /** `name` comes after something that is none of the activities */
  | { readonly ok: false; readonly reason: 'unknown'; readonly name: Name; readonly after: Name };

/**
 * Critical path method, activities on the nodes (Kelley and Walker, Proc Eastern Joint Computer Conf 1959:160-173; total slack):
 * a pass forth for the earliest times, a pass back from the end for the latest.
 */
export function criticalPath<Name>(activities: readonly Activity<Name>[]): CriticalPath<Name> {
  const named = new Map(activities.map((activity) => [activity.name, activity]));
  for (const { name, after } of activities)
    for (const other of after) if (!named.has(other)) return { ok: false, reason: 'unknown', name, after: other };

  const order = inOrder(named);
  if (!order.ok) return { ok: false, reason: 'cycle', cycle: order.cycle };

  const finish = new Map<Name, number>();
  for (const { name, duration, after } of order.activities)
    finish.set(name, Math.max(0, ...after.map((other) => finish.get(other) ?? 0)) + duration);
  const length = Math.max(0, ...finish.values());

  const latestFinish = new Map<Name, number>();
  const reversed = order.activities.toReversed();
  for (const { name, duration, after } of reversed) {
    const start = (latestFinish.get(name) ?? length) - duration;
    for (const other of after) latestFinish.set(other, Math.min(latestFinish.get(other) ?? length, start));
  }
  const times = activities.map(({ name, duration }): [Name, ActivityTimes] => {
    const earliest = finish.get(name) ?? 0;
    const latest = latestFinish.get(name) ?? length;
    const slack = latest - earliest;
    return [
      name,
      {
        earliestStart: earliest - duration,
        earliestFinish: earliest,
        latestStart: latest - duration,
        latestFinish: latest,
        slack,
        critical: slack <= SAME_TIME,
      },
    ];
  });
  return { ok: true, length, times: new Map(times) };
}

type Order<Name> =
  | { readonly ok: true; readonly activities: readonly Activity<Name>[] }
  | { readonly ok: false; readonly cycle: readonly Name[] };

/** Each after all that it comes after. */
function inOrder<Name>(named: ReadonlyMap<Name, Activity<Name>>): Order<Name> {
  const done = new Set<Name>();
  const activities: Activity<Name>[] = [];
  for (const start of named.values()) {
    // What is being placed, the next thing it comes after first: an explicit stack, since chains are long.
    const path: { readonly activity: Activity<Name>; next: number }[] = [];
    const open = new Map<Name, number>();
    const enter = (activity: Activity<Name>): void => {
      open.set(activity.name, path.length);
      path.push({ activity, next: 0 });
    };
    if (!done.has(start.name)) enter(start);
    for (let top = path.at(-1); top !== undefined; top = path.at(-1)) {
      const before = top.activity.after[top.next++];
      if (before === undefined) {
        path.pop();
        open.delete(top.activity.name);
        done.add(top.activity.name);
        activities.push(top.activity);
        continue;
      }
      const met = open.get(before);
      // Each on the path comes after the next one.
      if (met !== undefined)
        return {
          ok: false,
          cycle: path
            .slice(met)
            .map(({ activity }) => activity.name)
            .toReversed(),
        };
      const activity = named.get(before);
      if (activity !== undefined && !done.has(before)) enter(activity);
    }
  }
  return { ok: true, activities };
}
