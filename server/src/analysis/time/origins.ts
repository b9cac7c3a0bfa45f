import { type ContingentLink, type Join, SAME_TIME, type TimeNetwork } from './network.ts';

/**
 * What settles a moment: it comes `delay` after `base`, which somebody chooses or which is the end of a stretch. `t[moment]` is the
 * latest of that over all of the moment's origins.
 */
export interface Origin {
  readonly base: number;
  /** seconds */
  readonly delay: number;
  /** the last step of the way from the base to the moment; undefined for a base's own origin */
  readonly step: Step | undefined;
  /** the way to where the last step begins */
  readonly before: Origin | undefined;
}

export type Step =
  /** a stretch that is always of one length */
  | { readonly type: 'link'; readonly link: number }
  | { readonly type: 'join'; readonly join: number; readonly after: number };

/** Whether a stretch can turn out in only one way. */
export function isFixed(link: ContingentLink): boolean {
  return link.hi - link.lo <= SAME_TIME;
}

/**
 * The origins of every moment. Joins and stretches of one length are seen through, so that only what is chosen and what turns out is left
 * (a network of `n` moments may come to have `n` origins each, but where a stretch of uncertain length ends they begin anew).
 *
 * @throws RangeError when a moment waits for itself
 */
export function originsOf(network: TimeNetwork): readonly (readonly Origin[])[] {
  const { points, links, joins } = network;
  const fixed = new Map<number, number>();
  for (const [index, link] of links.entries()) if (isFixed(link)) fixed.set(link.to, index);
  const joined = new Map<number, number>(joins.map(({ point }, index) => [point, index]));
  const origins: (readonly Origin[] | undefined)[] = new Array(points).fill(undefined);

  for (const moment of inOrder(network)) {
    const link = fixed.get(moment);
    const join = joined.get(moment);
    if (link !== undefined) origins[moment] = afterLink(link, links, origins);
    else if (join !== undefined) origins[moment] = afterJoin(join, joins, origins);
    else origins[moment] = [{ base: moment, delay: 0, step: undefined, before: undefined }];
  }
  return origins.map((known) => known ?? []);
}

function afterLink(
  link: number,
  links: readonly ContingentLink[],
  known: readonly (readonly Origin[] | undefined)[],
): readonly Origin[] {
  const { from = 0, lo = 0 } = links[link] ?? {};
  return (known[from] ?? []).map((before) => ({
    base: before.base,
    delay: before.delay + lo,
    step: { type: 'link', link },
    before,
  }));
}

function afterJoin(
  join: number,
  joins: readonly Join[],
  known: readonly (readonly Origin[] | undefined)[],
): readonly Origin[] {
  const latest = new Map<number, Origin>();
  for (const [after, { from, delay }] of (joins[join]?.after ?? []).entries()) {
    for (const before of known[from] ?? []) {
      const whole = before.delay + delay;
      if ((latest.get(before.base)?.delay ?? Number.NEGATIVE_INFINITY) >= whole) continue;
      latest.set(before.base, { base: before.base, delay: whole, step: { type: 'join', join, after }, before });
    }
  }
  // What waits for nothing comes at the beginning.
  return latest.size > 0 ? [...latest.values()] : [{ base: 0, delay: 0, step: undefined, before: undefined }];
}

/** All moments, each after those that it follows by a link or a join. */
function inOrder({ points, links, joins }: TimeNetwork): readonly number[] {
  const followers: number[][] = Array.from({ length: points }, () => []);
  const awaited = new Int32Array(points);
  const follow = (from: number, to: number): void => {
    followers[from]?.push(to);
    awaited[to] = (awaited[to] ?? 0) + 1;
  };
  for (const { from, to } of links) follow(from, to);
  for (const { point, after } of joins) for (const { from } of after) follow(from, point);

  const order: number[] = [];
  for (let moment = 0; moment < points; moment++) if (awaited[moment] === 0) order.push(moment);
  for (const moment of order) {
    for (const follower of followers[moment] ?? []) {
      const left = (awaited[follower] ?? 0) - 1;
      awaited[follower] = left;
      if (left === 0) order.push(follower);
    }
  }
  const stuck = awaited.findIndex((left) => left > 0);
  if (stuck >= 0) throw new RangeError(`moment ${stuck} of the network waits for itself`);
  return order;
}
