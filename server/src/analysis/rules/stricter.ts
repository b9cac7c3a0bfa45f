import type { Span, Statement } from '@curette/grammar';
import type { Severity } from '../../problems/problem.ts';
import { listWords, plain } from '../../problems/words.ts';
import { isKind } from '../kinds/subkind.ts';
import type { Rule, RuleForm } from '../model.ts';
import { sharedThing } from '../protocol/monitors.ts';
import {
  type Difference,
  type Form,
  headOf,
  lineOf,
  type Site,
  type Stated,
  siteOf,
  takingOver,
} from './difference.ts';
import { overlap, STEPS, stepsShort } from './overlap.ts';
import { formWords, oftenWords, timeWords } from './rule-words.ts';
import { compareExpected, compareTotals } from './stricter-expected.ts';
import { compareOrder } from './stricter-order.ts';

/**
 * In what a rule falls short of the one it replaces. Nothing when it asks for at least as much: it is as severe, speaks of every step
 * that the old one speaks of, and what it expects there leaves no more free.
 */
export function shortOf(was: Stated, is: Stated): readonly Difference[] {
  const differences: Difference[] = [...lessSevere(was.rule, is.rule)];
  const taken = new Set<RuleForm>();
  const open: RuleForm[] = [];
  for (const form of was.rule.forms) {
    const tried = is.rule.forms.map((other) => ({ other, found: compareForms(was, form, is, other) }));
    const comparable = tried.flatMap(({ other, found }) => (found ? [{ other, found }] : []));
    const [best] = comparable.toSorted((a, b) => rank(a.found) - rank(b.found));
    if (!best) {
      open.push(form);
      continue;
    }
    taken.add(best.other);
    differences.push(...best.found);
  }
  const left = is.rule.forms.filter((form) => !taken.has(form));
  for (const form of open) {
    const instead = left.shift();
    differences.push({
      type: instead || form.type === 'not judged' ? 'apart' : 'looser',
      about: 'what it asks for',
      old: { words: formWords(was, form), site: siteOf(was.rule, form) },
      new: { words: instead ? formWords(is, instead) : '', site: instead ? siteOf(is.rule, instead) : headOf(is.rule) },
      takeOver: undefined,
    });
  }
  return differences;
}

/** Fewer shortcomings are nearer; what cannot be compared is farthest. */
function rank(found: readonly Difference[]): number {
  return found.reduce((sum, { type }) => sum + (type === 'looser' ? 1 : 100), 0);
}

const SEVERITIES = ['advice', 'warning', 'error'] as const satisfies readonly Severity[];

function lessSevere(was: Rule, is: Rule): readonly Difference[] {
  if (SEVERITIES.indexOf(is.severity) >= SEVERITIES.indexOf(was.severity)) return [];
  const [from, to] = [severityOf(was), severityOf(is)];
  return [
    {
      type: 'looser',
      about: 'how grave it is to break it',
      old: { words: was.severity, site: from ?? headOf(was) },
      new: { words: is.severity, site: to ?? headOf(is) },
      takeOver:
        from && !to
          ? { from: { statement: from.statement, span: from.statement.head }, to: 'new line', names: new Map() }
          : takingOver(from, to),
    },
  ];
}

function severityOf(rule: Rule): Site | undefined {
  for (const item of rule.statement.body?.items ?? [])
    if (item.type === 'severity' && item.level) return { statement: item, span: item.level };
  return undefined;
}

/**
 * The shortcomings of one thing that a rule asks for against one that the other asks for; undefined when they are of different sorts
 * or about different actions, so that neither stands in for the other.
 */
function compareForms(was: Stated, form: RuleForm, is: Stated, other: RuleForm): readonly Difference[] | undefined {
  switch (form.type) {
    case 'whenever':
      return other.type === 'whenever' ? compareExpected(was, form, is, other) : undefined;
    case 'pause':
    case 'order':
      return compareOrder(was, form, is, other);
    case 'count':
      return other.type === 'count' ? compareCounts(was, form, is, other) : undefined;
    case 'between':
      return other.type === 'between' ? compareTimes(was, form, is, other) : undefined;
    case 'every':
      return other.type === 'every' ? compareDeclared(was, form, is, other) : undefined;
    case 'total':
      return other.type === 'total' ? compareTotals(was, form, is, other) : undefined;
    case 'not judged':
      return undefined;
    default:
      return form satisfies never;
  }
}

function compareCounts(was: Stated, form: Form<'count'>, is: Stated, other: Form<'count'>) {
  const lies = overlap(form.pattern, other.pattern);
  if (!lies) return undefined;
  const [item, line] = [lineOf(was.rule, form), lineOf(is.rule, other)];
  const differences: Difference[] = [];
  const limited = Number.isFinite(form.most);
  const short = (type: Difference['type']) => {
    if (differences.some((one) => one.type === type)) return;
    const [from, to] = [
      { statement: item, span: { start: form.pattern.node.end, end: item.head.end } },
      { statement: line, span: { start: other.pattern.node.end, end: line.head.end } },
    ];
    differences.push({
      type,
      about: 'how often',
      old: { words: oftenWords(form), site: { statement: item, span: item.head } },
      new: { words: oftenWords(other), site: { statement: line, span: line.head } },
      takeOver: type === 'looser' ? { from, to, names: new Map() } : undefined,
    });
  };
  const narrowing = { visit: 'protocol', protocol: 'visit' } as const;
  if (limited && other.most > form.most) short('looser');
  else if (limited && other.scope === narrowing[form.scope] && other.scope === 'visit') short('looser');
  if (form.least > 0 && other.least < form.least) short('looser');
  else if (form.least > 0 && other.scope === 'protocol' && form.scope === 'visit') short('looser');
  // What may be done at most so often counts the more steps the stricter; what must be, the fewer.
  return [
    ...(limited ? stepsShort(form.pattern, other.pattern, lies, 'wider', STEPS, item, line) : []),
    ...(form.least > 0 ? stepsShort(form.pattern, other.pattern, lies, 'narrower', STEPS, item, line) : []),
    ...differences,
  ];
}

function compareTimes(was: Stated, form: Form<'between'>, is: Stated, other: Form<'between'>) {
  const [first, second] = [overlap(form.first, other.first), overlap(form.second, other.second)];
  if (!first || !second) return undefined;
  const [item, line] = [lineOf(was.rule, form), lineOf(is.rule, other)];
  const [old, own] = [form.limit, other.limit];
  const written = 'side' in old || 'side' in own ? undefined : { old, own };
  const limited = 'side' in old ? old.side !== 'at least' : Number.isFinite(old.most);
  const [bound, limit] = [boundOf(item), boundOf(line)];
  const time = (type: Difference['type'], about: string): Difference => ({
    type,
    about,
    old: { words: timeWords(form), site: { statement: item, span: bound ?? item.head } },
    new: { words: timeWords(other), site: { statement: line, span: limit ?? line.head } },
    takeOver:
      bound && limit
        ? { from: { statement: item, span: bound }, to: { statement: line, span: limit }, names: new Map() }
        : undefined,
  });
  const longer = written && written.own.most > written.old.most;
  const sooner = written && written.own.least < written.old.least;
  const apart = !written && timeWords(form) !== timeWords(other);
  const [shared, still] = [sharedThing(form), sharedThing(other)];
  return [
    ...stepsShort(form.first, other.first, first, 'wider', STEPS, item, line),
    ...stepsShort(form.second, other.second, second, 'wider', STEPS, item, line),
    // Counted from the last of more steps, a time at most is over later: that is no longer the same time.
    ...(limited && first.is === 'wider' ? [time('apart', 'from which step the time counts')] : []),
    ...(still && !shared
      ? [
          {
            type: 'looser' as const,
            about: 'what it speaks of',
            old: { words: 'any two such steps', site: { statement: item, span: item.head } },
            new: {
              words: `two steps on one and the same ${still.kind.label}`,
              site: { statement: line, span: line.head },
            },
            takeOver: undefined,
          },
        ]
      : []),
    ...(limited && shared && !still ? [time('apart', 'from which step the time counts')] : []),
    ...(longer || sooner ? [time('looser', 'the time between')] : []),
    ...(apart ? [time('apart', 'the time between')] : []),
  ];
}

function boundOf(item: Statement): Span | undefined {
  return item.type === 'between' ? (item.bound ?? item.property) : undefined;
}

function compareDeclared(was: Stated, form: Form<'every'>, is: Stated, other: Form<'every'>) {
  const wider = isKind(form.kind, other.kind);
  const narrower = isKind(other.kind, form.kind);
  if (!wider && !narrower) return undefined;
  const [item, line] = [lineOf(was.rule, form), lineOf(is.rule, other)];
  const missing = form.properties.filter((property) => !other.properties.includes(property));
  const [kind, own] = [kindNameOf(item), kindNameOf(line)];
  const differences: Difference[] = [];
  if (!wider)
    differences.push({
      type: 'looser',
      about: 'what it speaks of',
      old: { words: `every ${form.kind.label}`, site: { statement: item, span: kind ?? item.head } },
      new: { words: `every ${other.kind.label}`, site: { statement: line, span: own ?? line.head } },
      takeOver:
        kind && own
          ? { from: { statement: item, span: kind }, to: { statement: line, span: own }, names: new Map() }
          : undefined,
    });
  if (missing.length > 0) {
    const [from, to] = [propertiesOf(item), propertiesOf(line)];
    const more = other.properties.some((property) => !form.properties.includes(property));
    differences.push({
      type: 'looser',
      about: 'what has to be stated',
      old: { words: listWords(form.properties.map(plain), 'and'), site: { statement: item, span: from ?? item.head } },
      new: { words: listWords(other.properties.map(plain), 'and'), site: { statement: line, span: to ?? line.head } },
      // What the new rule asks for besides must not be lost.
      takeOver:
        from && to && !more
          ? { from: { statement: item, span: from }, to: { statement: line, span: to }, names: new Map() }
          : undefined,
    });
  }
  return differences;
}

function kindNameOf(item: Statement): Span | undefined {
  return item.type === 'every' ? item.kind : undefined;
}

function propertiesOf(item: Statement): Span | undefined {
  if (item.type !== 'every') return undefined;
  const [first] = item.properties;
  const last = item.properties.at(-1);
  return first && last && { start: first.start, end: last.end };
}
