import type { Name, Statement } from '@curette/grammar';
import { isKind } from '../kinds/subkind.ts';
import type { Kind, PatternModel, SlotModel } from '../model.ts';
import { patternWords } from '../protocol/pattern-words.ts';
import type { Difference } from './difference.ts';

/** How the steps that two patterns speak of lie to one another. */
export interface Overlap {
  /** `wider`: every step of the old one is one of the new one's, and more */
  readonly is: 'same' | 'wider' | 'narrower' | 'apart';
  /** the names of the old one's slots by those of the new one's */
  readonly names: ReadonlyMap<string, string>;
  /** the one slot that makes the new one narrower, if it is one */
  readonly narrowed: { readonly from: Name; readonly to: Name; readonly kind: Kind } | undefined;
}

/** How the steps of two patterns lie to one another; undefined for steps of different verbs. */
export function overlap(was: PatternModel, is: PatternModel): Overlap | undefined {
  if (was.sort !== is.sort || was.verb !== is.verb) return undefined;
  const pairs = pairsOf(was.slots, is.slots);
  const names = new Map(pairs.map(([old, slot]) => [slot.name, old.name]));
  const covers = (wide: 0 | 1) => {
    const [own, others] = wide === 1 ? [is.slots, was.slots] : [was.slots, is.slots];
    return own.every((slot) => {
      if (slot.optional) return true;
      const pair = pairs.find((other) => other[wide] === slot);
      const narrow = pair?.[wide === 1 ? 0 : 1];
      return narrow !== undefined && others.includes(narrow) && !narrow.optional && coversSlot(slot, narrow);
    });
  };
  const [wider, narrower] = [covers(1), covers(0)];
  const odd = pairs.filter(([old, slot]) => !coversSlot(slot, old));
  const [pair] = odd;
  const from = pair?.[0].accepts.type === 'kind' ? nodeOf(was, pair[0])?.kind : undefined;
  const to = pair ? nodeOf(is, pair[1])?.kind : undefined;
  const alone =
    odd.length === 1 && is.slots.filter((slot) => !slot.optional).every((slot) => pairs.some((p) => p[1] === slot));
  return {
    is: sameOthers(was, is) ? (wider ? (narrower ? 'same' : 'wider') : narrower ? 'narrower' : 'apart') : 'apart',
    names,
    narrowed:
      alone && from && to && pair?.[0].accepts.type === 'kind' ? { from, to, kind: pair[0].accepts.kind } : undefined,
  };
}

/** Whether the same conditions and alternatives stand with both; which of others is wider is not told. */
function sameOthers(was: PatternModel, is: PatternModel): boolean {
  const asked = ({ where }: PatternModel) => where !== undefined;
  const found = ({ values }: PatternModel) => [...values].sort().join(' ');
  return (
    !asked(was) &&
    !asked(is) &&
    found(was) === found(is) &&
    was.others.length === is.others.length &&
    was.others.every((other, i) => {
      const own = is.others[i];
      return own !== undefined && overlap(other, own)?.is === 'same';
    })
  );
}

function nodeOf(pattern: PatternModel, slot: SlotModel) {
  return pattern.node.slots[pattern.slots.indexOf(slot)];
}

type Pair = readonly [old: SlotModel, slot: SlotModel];

/** Slots that stand for the same: of one preposition and sort; kinds that have to do with one another first. */
function pairsOf(was: readonly SlotModel[], is: readonly SlotModel[]): readonly Pair[] {
  const pairs: Pair[] = [];
  const pair = (fits: (old: SlotModel, slot: SlotModel) => boolean) => {
    for (const slot of is) {
      if (pairs.some((other) => other[1] === slot)) continue;
      const old = was.find((one) => !pairs.some((other) => other[0] === one) && alike(one, slot) && fits(one, slot));
      if (old) pairs.push([old, slot]);
    }
  };
  pair((old, slot) => coversSlot(old, slot) || coversSlot(slot, old));
  pair(() => true);
  return pairs;
}

function alike(a: SlotModel, b: SlotModel): boolean {
  const sorts = [a.accepts.type, b.accepts.type];
  return a.preposition === b.preposition && (sorts[0] === sorts[1] || sorts.includes('unknown'));
}

/** Whether what fills one slot always fits the other. */
function coversSlot(wide: SlotModel, narrow: SlotModel): boolean {
  const [a, b] = [wide.accepts, narrow.accepts];
  if (a.type === 'kind') return b.type === 'kind' && isKind(b.kind, a.kind);
  if (a.type === 'quantity') return b.type === 'quantity' && a.dimension === b.dimension;
  return a.type === b.type && a.type === 'text';
}

/** What is wrong when the new rule has to speak of at least the same steps (`wider`), or of no more of them (`narrower`). */
export function stepsShort(
  was: PatternModel,
  is: PatternModel,
  lies: Overlap,
  wanted: 'wider' | 'narrower',
  about: string,
  item: Statement,
  other: Statement,
): readonly Difference[] {
  if (lies.is === 'same' || lies.is === wanted) return [];
  // A kind that nobody knows is told where it stands.
  if ([...was.slots, ...is.slots].some(({ accepts }) => accepts.type === 'unknown')) return [];
  return [
    {
      type: lies.is === 'apart' ? 'apart' : 'looser',
      about,
      old: { words: `"${patternWords(was)}"`, site: { statement: item, span: was.node } },
      new: { words: `"${patternWords(is)}"`, site: { statement: other, span: lies.narrowed?.to ?? is.node } },
      takeOver:
        lies.narrowed && lies.is === 'narrower'
          ? {
              from: { statement: item, span: lies.narrowed.from },
              to: { statement: other, span: lies.narrowed.to },
              names: new Map(),
            }
          : undefined,
    },
  ];
}

/** About which steps a rule speaks. */
export const STEPS = 'which steps it speaks of';
