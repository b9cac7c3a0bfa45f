import type { ContingentLink, Join, Limit, TimeNetwork } from '../../server/src/analysis/time/network.ts';

/** Steps between the moments at which a limit begins. */
const STRIDE = 4;

/**
 * A network in the shape of a visit, of `points` moments at least: one step after the other, now and then two lanes that meet again, a
 * wait within a range, a wait until something is old enough; and every few steps a limit on the way from there to some steps later. All
 * limits can be kept, if only just, by a team that waits no longer than it has to. Times in seconds.
 */
export function visitShape(points: number): TimeNetwork {
  const limits: Limit[] = [];
  const links: ContingentLink[] = [];
  const joins: Join[] = [];
  let count = 1;
  // The moment of work that has come last, and when it comes at the latest if the team does not wait beyond what is asked.
  let now = { point: 0, latest: 0 };
  const trunk = [now];
  const step = (from: number): { readonly point: number; readonly hi: number } => {
    const lo = 60 * (1 + (links.length % 7));
    const hi = lo + 60 * (links.length % 5);
    links.push({ from, to: count, lo, hi });
    return { point: count++, hi };
  };
  for (let round = 0; count < points; round++) {
    const { point, latest } = now;
    switch (round % 8) {
      case 3: {
        // Two lanes of two steps and of one.
        const first = step(point);
        const second = step(first.point);
        const other = step(point);
        joins.push({
          point: count,
          after: [
            { from: second.point, delay: 0 },
            { from: other.point, delay: 0 },
          ],
        });
        now = { point: count++, latest: latest + Math.max(first.hi + second.hi, other.hi) };
        break;
      }
      case 5: {
        const began = trunk[Math.max(0, trunk.length - 4)] ?? now;
        joins.push({
          point: count,
          after: [
            { from: point, delay: 0 },
            { from: began.point, delay: 600 },
          ],
        });
        now = { point: count++, latest: Math.max(latest, began.latest + 600) };
        break;
      }
      case 7:
        limits.push({ from: point, to: count, lo: 120, hi: 600 });
        now = { point: count++, latest: latest + 120 };
        break;
      default: {
        const done = step(point);
        now = { point: done.point, latest: latest + done.hi };
      }
    }
    trunk.push(now);
    const since = trunk[trunk.length - 1 - 2 * STRIDE];
    if (since && round % STRIDE === 0)
      limits.push({ from: since.point, to: now.point, lo: 300, hi: now.latest - since.latest + 30 });
  }
  return { points: count, limits, links, joins };
}
