/** Small networks of time with whole numbers: made at random, and judged by trying everything. */
import fc from 'fast-check';
import type { Join, Limit, Part, TimeNetwork } from '../../server/src/analysis/time/network.ts';

/**
 * Whether the team can keep every limit whatever turns out, tried out move by move on whole numbers. At each moment first what is under
 * way is over or not (nobody decides that), then the team begins what it wants to; what comes of that at the same moment is seen and may
 * be answered at the same moment, and so on.
 */
export function winnable(network: TimeNetwork): boolean {
  const { points, limits, links, joins } = network;
  const chosen = chosenMoments(network);
  const horizon = horizonOf(network);
  const known = new Map<string, boolean>();

  /** Joins that are due at `now` come. */
  const joined = (times: readonly number[], now: number): number[] => {
    const next = [...times];
    for (let more = true; more; ) {
      more = false;
      for (const { point, after } of joins) {
        if (next[point] !== UNSET) continue;
        if (after.some(({ from, delay }) => (next[from] ?? UNSET) === UNSET || (next[from] ?? 0) + delay > now))
          continue;
        next[point] = now;
        more = true;
      }
    }
    return next;
  };

  const lost = (times: readonly number[], now: number): boolean =>
    limits.some(({ from, to, lo, hi }) => {
      const [a = UNSET, b = UNSET] = [times[from], times[to]];
      if (a !== UNSET && b !== UNSET) return b - a < lo || b - a > hi;
      if (a !== UNSET) return now - a > hi;
      return b !== UNSET && b - now < lo;
    });

  /** It is `now`, and of links below `decided` it is known whether they are over by now. */
  const turnsOut = (before: readonly number[], now: number, decided: number): boolean => {
    const times = joined(before, now);
    if (lost(times, now)) return false;
    const key = `${now},${decided},${times.join()}`;
    const answer = known.get(key) ?? tryLinks(times, now, decided);
    known.set(key, answer);
    return answer;
  };

  const tryLinks = (times: readonly number[], now: number, decided: number): boolean => {
    for (const [index, { from, to, lo, hi }] of links.entries()) {
      const since = times[from] ?? UNSET;
      if (decided & (1 << index) || since === UNSET || times[to] !== UNSET || now - since < lo) continue;
      const over = times.with(to, now);
      return (
        turnsOut(over, now, decided | (1 << index)) &&
        (now - since >= hi || turnsOut(times, now, decided | (1 << index)))
      );
    }
    return acts(times, now, decided);
  };

  const acts = (times: readonly number[], now: number, decided: number): boolean => {
    if (times.every((time) => time !== UNSET)) return true;
    const open = chosen.filter((moment) => times[moment] === UNSET);
    for (let set = 1; set < 1 << open.length; set++) {
      const next = [...times];
      for (const [place, moment] of open.entries()) if (set & (1 << place)) next[moment] = now;
      if (turnsOut(next, now, decided)) return true;
    }
    return now < horizon && turnsOut(times, now + 1, 0);
  };

  return turnsOut([0, ...new Array<number>(points - 1).fill(UNSET)], 0, 0);
}

/** Whether there are times and lengths at all that keep every limit, joins coming at once. */
export function possible(network: TimeNetwork): boolean {
  // What turns out is the team's to choose: it begins each length, and decides at each moment whether it is over.
  const { limits, links } = network;
  return winnable({ ...network, limits: [...limits, ...links], links: [] });
}

const UNSET = -1;

export function chosenMoments({ points, links, joins }: TimeNetwork): readonly number[] {
  const given = new Set([0, ...links.map(({ to }) => to), ...joins.map(({ point }) => point)]);
  return Array.from({ length: points }, (_, moment) => moment).filter((moment) => !given.has(moment));
}

/** Nothing is gained by waiting longer than all numbers together. */
function horizonOf({ limits, links, joins }: TimeNetwork): number {
  const finite = (value: number): number => (Number.isFinite(value) ? Math.abs(value) : 0);
  return (
    limits.reduce((sum, { lo, hi }) => sum + Math.max(finite(lo), finite(hi)), 0) +
    links.reduce((sum, { hi }) => sum + hi, 0) +
    joins.reduce((sum, { after }) => sum + Math.max(...after.map(({ delay }) => delay)), 0)
  );
}

/** The sum of a cycle's parts, as `judgeNetwork` says that they count. */
export function weightOf(network: TimeNetwork, answer: 'can break' | 'always breaks', cycle: readonly Part[]): number {
  let sum = 0;
  for (const part of cycle) {
    if (part.type === 'join') {
      const delay = network.joins[part.index]?.after[part.after]?.delay ?? Number.NaN;
      sum += part.side === 'at once' ? delay : -delay;
      continue;
    }
    const sides = (part.type === 'limit' ? network.limits : network.links)[part.index];
    const value = sides?.[part.side] ?? Number.NaN;
    const counts = part.type === 'limit' || answer === 'always breaks' ? part.side === 'hi' : part.side === 'lo';
    sum += counts ? value : -value;
  }
  return sum;
}

export interface NetworkSize {
  readonly points: readonly [least: number, most: number];
  readonly joins: boolean;
  /** the largest number on a side */
  readonly numbers: number;
}

type Made =
  | { readonly type: 'chosen'; readonly from: number; readonly lo: number; readonly width: number }
  | { readonly type: 'link'; readonly from: number; readonly lo: number; readonly width: number }
  | { readonly type: 'join'; readonly after: readonly { readonly from: number; readonly delay: number }[] };

/** Networks whose moments are numbered in no order, with links and joins one after another, and limits between any two moments. */
export function networks(size: NetworkSize): fc.Arbitrary<TimeNetwork> {
  const { numbers } = size;
  const number = fc.integer({ min: 0, max: numbers });
  const seed = fc.nat();
  const moment: fc.Arbitrary<Made> = fc.oneof(
    {
      weight: 3,
      arbitrary: fc.record({ type: fc.constant('chosen' as const), from: seed, lo: number, width: number }),
    },
    { weight: 5, arbitrary: fc.record({ type: fc.constant('link' as const), from: seed, lo: number, width: number }) },
    {
      weight: size.joins ? 4 : 0,
      arbitrary: fc.record({
        type: fc.constant('join' as const),
        after: fc.array(fc.record({ from: seed, delay: number }), { minLength: 1, maxLength: 3 }),
      }),
    },
  );
  const limit = fc.record({
    from: seed,
    to: seed,
    lo: fc.oneof(
      { weight: 5, arbitrary: fc.integer({ min: -numbers, max: 2 * numbers }) },
      { weight: 4, arbitrary: fc.constant(Number.NEGATIVE_INFINITY) },
    ),
    width: fc.oneof(
      { weight: 20, arbitrary: fc.integer({ min: 0, max: 2 * numbers }) },
      { weight: 8, arbitrary: fc.constant(Number.POSITIVE_INFINITY) },
      { weight: 1, arbitrary: fc.constant(-1) },
    ),
  });
  const [least, most] = size.points;
  return fc
    .record({
      moments: fc.array(moment, { minLength: least - 1, maxLength: most - 1 }),
      limits: fc.array(limit, { minLength: 1, maxLength: 4 }),
      shuffle: fc.array(seed, { minLength: most, maxLength: most }),
    })
    .map(({ moments, limits, shuffle }) => {
      const points = moments.length + 1;
      const rest = Array.from({ length: points - 1 }, (_, index) => index + 1);
      const names = [0, ...shuffle.flatMap((at) => rest.splice(at % Math.max(1, rest.length), 1))];
      const name = (at: number): number => names[at] ?? Number.NaN;
      const made = { limits: [] as Limit[], links: [] as Limit[], joins: [] as Join[] };
      for (const [index, one] of moments.entries()) {
        const before = (at: number): number => name(at % (index + 1));
        const to = name(index + 1);
        if (one.type === 'join') {
          made.joins.push({ point: to, after: one.after.map(({ from, delay }) => ({ from: before(from), delay })) });
          continue;
        }
        const sides = { from: before(one.from), to, lo: one.lo, hi: one.lo + one.width };
        // Of what is chosen some has no end, or nothing that it follows.
        if (one.type === 'link') made.links.push(sides);
        else if (one.from % 3 === 0) made.limits.push(sides);
        else if (one.from % 3 === 1) made.limits.push({ ...sides, hi: Number.POSITIVE_INFINITY });
      }
      for (const { from, to, lo, width } of limits) {
        // Mostly from what was made before to what was made after it; a few are the wrong way round, and no time keeps them.
        const ends = [from % points, to % points].sort((a, b) => (from % 5 === 0 ? 0 : a - b));
        const [a = 0, b = 0] = ends.map(name);
        const most = lo === Number.NEGATIVE_INFINITY ? width + numbers : lo + width;
        if (a !== b) made.limits.push({ from: a, to: b, lo, hi: most });
      }
      return { points, ...made };
    });
}
