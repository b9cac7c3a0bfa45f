import { consistency } from './consistency.ts';
import { control } from './control.ts';
import type { Part, TimeNetwork } from './network.ts';

export type Verdict =
  | { readonly answer: 'holds' }
  | {
      readonly answer: 'always breaks' | 'can break';
      /** what cannot all be kept, in the order in which it happens */
      readonly cycle: readonly Part[];
      /**
       * Seconds by which it falls short, positive: so much longer, or shorter, its limits would have to be together. Where it matters that a
       * stretch may be short (its `lo` is in a cycle that can break), and where joins can be kept by another of what they wait for, less
       * may do.
       */
      readonly by: number;
    };

/**
 * Whether a team that decides as it goes, and sees what has turned out so far, keeps every limit of `network`.
 *
 * - *holds*: however the links turn out (dynamic controllability; one may act at the very moment at which one sees something).
 * - *always breaks*: however they turn out, even if the team could choose them.
 * - *can break*: neither.
 *
 * Without joins the answer is exact, by Morris's algorithm (see `propagate`). A join is not chosen: it cannot be held back. A limit on how
 * late it may come is one on each of what it waits for, exactly. A limit on how early it may come is kept if one of them keeps it; which one
 * is settled beforehand (see `control`). So with joins *holds* is always true, and so is *always breaks*; *can break* may be too strict,
 * once in some hundred thousand small networks made at random.
 *
 * How the weights of a cycle's parts sum to `-by`: see `partsOf` for *can break*. For *always breaks* links are read as limits: their `hi`
 * counts as such, and their `lo` less than nothing.
 *
 * @throws RangeError when a moment waits for itself
 */
export function judgeNetwork(network: TimeNetwork): Verdict {
  const judged = consistency(network);
  if (!judged.consistent) return { answer: 'always breaks', cycle: judged.cycle, by: judged.by };
  const { earliest } = judged;
  const outcome = control(network, earliest);
  if (outcome.ok) return { answer: 'holds' };
  return (
    contradiction(network, earliest) ?? {
      answer: 'can break',
      cycle: outcome.cycle,
      by: outcome.by,
    }
  );
}

/**
 * What breaks even if every link could be chosen, because joins cannot be held back. Where nothing turns out there is, if there are times
 * that keep all limits, one choice for each join: that by which it comes when it comes. So trying all choices tells.
 */
function contradiction(network: TimeNetwork, earliest: Float64Array): Verdict | undefined {
  const { limits, links, joins } = network;
  if (joins.length === 0) return undefined;
  const outcome = control({ ...network, limits: [...limits, ...links], links: [] }, earliest);
  if (outcome.ok || !outcome.exhausted) return undefined;
  const cycle = outcome.cycle.map(
    (part): Part =>
      part.type === 'limit' && part.index >= limits.length
        ? { type: 'link', index: part.index - limits.length, side: part.side }
        : part,
  );
  return { answer: 'always breaks', cycle, by: outcome.by };
}
