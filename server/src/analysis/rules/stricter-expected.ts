import type { Expr } from '@curette/grammar';
import { isKind } from '../kinds/subkind.ts';
import { type Condition, conditionOf, implies, type Names, partsOf, subjectsOf } from './condition.ts';
import {
  type Difference,
  expectSite,
  type Form,
  headOf,
  kindIn,
  lineOf,
  type Site,
  type Stated,
  takingOver,
} from './difference.ts';
import { overlap, STEPS, stepsShort } from './overlap.ts';
import { conditionWords, formWords } from './rule-words.ts';

/** A form that says where it speaks and what it expects there. */
type Speaking = Form<'whenever' | 'total'>;

interface Side {
  readonly stated: Stated;
  readonly form: Speaking;
  readonly names: Names;
  /** the line that says what it speaks of */
  readonly site: Site;
}

/** In what a rule about single steps falls short; undefined when they are steps of different verbs. */
export function compareExpected(
  was: Stated,
  form: Form<'whenever'>,
  is: Stated,
  other: Form<'whenever'>,
): readonly Difference[] | undefined {
  const lies = overlap(form.pattern, other.pattern);
  if (!lies) return undefined;
  const [item, line] = [lineOf(was.rule, form), lineOf(is.rule, other)];
  return [
    ...stepsShort(form.pattern, other.pattern, lies, 'wider', STEPS, item, line),
    ...expectationsShort(was, form, form.pattern.node, is, other, other.pattern.node, lies.names),
  ];
}

/** In what a rule about what adds up falls short; undefined when they are about things that have nothing in common. */
export function compareTotals(
  was: Stated,
  form: Form<'total'>,
  is: Stated,
  other: Form<'total'>,
): readonly Difference[] | undefined {
  const wider = isKind(form.kind, other.kind);
  if (!wider && !isKind(other.kind, form.kind)) return undefined;
  const [item, line] = [lineOf(was.rule, form), lineOf(is.rule, other)];
  const sides = {
    old: { words: formWords(was, form), site: { statement: item, span: item.head } },
    new: { words: formWords(is, other), site: { statement: line, span: line.head } },
  };
  // All together and each by itself, a visit and the whole protocol: sums of different things.
  if (form.together !== other.together || form.how !== other.how || form.scope !== other.scope)
    return [{ type: 'apart', about: 'what is added up', ...sides, takeOver: undefined }];
  const narrowed: Difference = { type: 'looser', about: 'what it speaks of', ...sides, takeOver: undefined };
  return [
    ...(wider ? [] : [narrowed]),
    ...expectationsShort(was, form, item.head, is, other, line.head, new Map([[other.name, form.name]])),
  ];
}

/** @param names the old rule's names by the new one's */
function expectationsShort(
  was: Stated,
  form: Speaking,
  span: Site['span'],
  is: Stated,
  other: Speaking,
  otherSpan: Site['span'],
  names: ReadonlyMap<string, string>,
): readonly Difference[] {
  const old = sideOf(was, form, span, undefined);
  const own = sideOf(is, other, otherSpan, names);
  const back = new Map([...names].map(([name, common]) => [common, name]));
  return [...speaksLess(old, own, back), ...expectsLess(old, own, back)];
}

/** What a rule's names stand for: the slots of the old rule; a slot that the old rule has not is a name of its own. */
function sideOf(
  stated: Stated,
  form: Speaking,
  span: Site['span'],
  common: ReadonlyMap<string, string> | undefined,
): Side {
  const given = new Set(form.type === 'total' ? [form.name] : form.pattern.slots.map((slot) => slot.name));
  return {
    stated,
    form,
    names: {
      module: stated.module,
      common: (name) => (common && given.has(name) ? (common.get(name) ?? `${name}'`) : name),
      kind: (name) => kindIn(form, name),
    },
    site: { statement: lineOf(stated.rule, form), span },
  };
}

/** The new rule has to speak wherever the old one does: what it asks for with `where` follows from what the old one asks for. */
function speaksLess(old: Side, own: Side, back: ReadonlyMap<string, string>): readonly Difference[] {
  const [before, now] = [old.form.where, own.form.where];
  if (!now) return [];
  const wanted = conditionOf(now, own.names);
  const given = before && conditionOf(before, old.names);
  if (given && implies(given, wanted)) return [];
  const [from, to] = [before && siteIn(old, before), siteIn(own, now)];
  return [
    {
      type: !given || implies(wanted, given) ? 'looser' : 'apart',
      about: 'where it speaks at all',
      old: { words: before ? wordsIn(old, before) : 'everywhere', site: from ?? old.site },
      new: { words: `where ${wordsIn(own, now)}`, site: to },
      takeOver: takingOver(from, to, back),
    },
  ];
}

function siteIn(side: Side, span: Site['span']): Site {
  return { statement: side.site.statement, span };
}

function wordsIn({ stated, form }: Side, expr: Expr): string {
  return conditionWords(expr, stated.module, form);
}

interface Expected {
  readonly expr: Expr;
  readonly condition: Condition;
}

/** Each single thing that the old rule expects has to follow from what the new one expects. */
function expectsLess(old: Side, own: Side, back: ReadonlyMap<string, string>): readonly Difference[] {
  const before = old.form.expect.flatMap((expr) => singles(expr, old.names));
  const now = own.form.expect.flatMap((expr) => singles(expr, own.names));
  const whole = all(now);
  const missed = before.filter(({ condition }) => !implies(whole, condition));
  const kept = before.filter(({ expr }) => !missed.some((one) => one.expr === expr));
  // What is at least as strict as something of the old rule stands in for that, and not for what is missing.
  const spare = now.filter(({ condition }) => !kept.some((one) => implies(condition, one.condition)));
  return [...new Set(missed.map(({ expr }) => expr))].map((expr): Difference => {
    const parts = missed.filter((one) => one.expr === expr);
    const line = all(before.filter((one) => one.expr === expr));
    const weaker =
      spare.find((one) => parts.some(({ condition }) => implies(condition, one.condition))) ??
      spare.find((one) => implies(line, one.condition));
    const kin = weaker ?? spare.find((one) => parts.some((part) => speakOfTheSame(part.condition, one.condition)));
    const from = expectSite(old.stated.rule, expr);
    const to = kin && expectSite(own.stated.rule, kin.expr);
    const whole = from?.statement.type === 'expect' && from.statement.condition === expr;
    return {
      type: kin && !weaker ? 'apart' : 'looser',
      about: 'what it expects',
      old: { words: wordsIn(old, expr), site: from ?? headOf(old.stated.rule) },
      new: { words: kin ? wordsIn(own, kin.expr) : '', site: to ?? own.site },
      takeOver:
        from && !kin && whole
          ? { from: { statement: from.statement, span: from.statement.head }, to: 'new line', names: back }
          : takingOver(from, weaker && to, back),
    };
  });
}

function all(parts: readonly Expected[]): Condition {
  return { type: 'all', parts: parts.map(({ condition }) => condition) };
}

/** A condition by its single parts, each with the line or half line that says it. */
function singles(expr: Expr | undefined, names: Names): readonly Expected[] {
  if (!expr) return [];
  if (expr.type === 'and') return [...singles(expr.left, names), ...singles(expr.right, names)];
  return partsOf(conditionOf(expr, names)).map((condition) => ({ expr, condition }));
}

function speakOfTheSame(a: Condition, b: Condition): boolean {
  const others = subjectsOf(b);
  return [...subjectsOf(a)].some((one) => others.has(one));
}
