import type { Statement } from '@curette/grammar';
import { notJudged } from '../../problems/not_judged.ts';
import { type Mend, type Place, problemAt, type Report, type SourceNote } from '../../problems/problem.ts';
import { ruleLoosened } from '../../problems/rule_loosened.ts';
import { ruleReplacedTwice } from '../../problems/rule_replaced_twice.ts';
import { rulesInRing } from '../../problems/rules_in_ring.ts';
import { COMMON_PRACTICE } from '../kinds/declarations.ts';
import { placeOf, type Rule } from '../model.ts';
import type { Module } from '../names/module.ts';
import { sourceNamed } from '../names/resolve.ts';
import { type Difference, headOf, type Site, type Stated } from './difference.ts';
import { chainFrom, replacedBy, ringOf, sameRule } from './replaced.ts';
import { shortOf } from './stricter.ts';
import { textTakenOver } from './take-over.ts';

/** Each rule of this file that replaces another is at least as strict as that one, or it is told in what it is not. */
export function checkReplaces(module: Module, report: Report): void {
  for (const name of module.scope.rules.keys()) {
    const rule = module.declarations.rule(name);
    if (!rule || rule.replaces === undefined) continue;
    const ring = ringOf(module, rule);
    if (ring) tellRing(module, rule, ring, report);
    else compareWithChain(module, rule, report);
  }
  checkTwice(module, report);
}

/**
 * A rule is compared with the one it replaces, and with those which that one replaces in turn: a loosening that a rule in between
 * has made is told there and not again.
 */
function compareWithChain(module: Module, rule: Rule, report: Report): void {
  const is: Stated = { module, rule };
  let through: Stated | undefined;
  for (const target of chainFrom(module, rule)) {
    const was: Stated = { module: module.module(target.file) ?? module, rule: target };
    const told = through ? shortOf(was, through).filter(({ type }) => type === 'looser') : [];
    for (const difference of shortOf(was, is)) {
      if (difference.type === 'looser' && !told.some((other) => sameSite(other.old.site, difference.old.site)))
        tellLooser(is, was, through?.rule, difference, report);
      else if (difference.type === 'apart' && !through) tellApart(is, was, difference, report);
    }
    through = was;
  }
}

function sameSite(a: Site, b: Site): boolean {
  return a.statement === b.statement && a.span.start === b.span.start && a.span.end === b.span.end;
}

function tellLooser(is: Stated, was: Stated, through: Rule | undefined, difference: Difference, report: Report): void {
  const { module, rule } = is;
  report(
    problemAt(ruleLoosened, at(is, difference.new.site), {
      replaced: was.rule.label,
      through: through?.label,
      about: difference.about,
      own: difference.new.words,
      old: difference.old.words,
      ownSource: sourceOf(is),
      oldSource: sourceOf(was),
      grave: was.rule.severity === 'error' && isPublished(was),
      oldPlace: at(was, difference.old.site),
      oldWhy: was.rule.why,
      mends: [],
      tries: [...takingOver(is, was, difference), ...(through ? [] : removing(module, rule, 'both rules count then'))],
    }),
  );
}

function tellApart({ rule }: Stated, was: Stated, { about, old, new: own }: Difference, report: Report): void {
  const sides = own.words === '' ? old.words : `${own.words} against ${old.words}`;
  report(
    problemAt(notJudged, replacesPlace(rule), {
      what: `whether this rule is at least as strict as "${was.rule.label}", which it replaces, in ${about}: ${sides}`,
    }),
  );
}

function tellRing(module: Module, rule: Rule, ring: readonly Rule[], report: Report): void {
  report(
    problemAt(rulesInRing, replacesPlace(rule), {
      rule: rule.label,
      ring: ring.map((other) => ({ label: other.label, place: replacesPlace(other) })),
      mends: removing(module, rule, 'the ring is open then'),
    }),
  );
}

/** Of all rules that count in this file, no two replace the same one. */
function checkTwice(module: Module, report: Report): void {
  const groups = new Map<string, { readonly target: Rule; readonly by: Rule[] }>();
  for (const scope of module.closure)
    for (const name of scope.rules.keys()) {
      const rule = module.module(scope.id)?.declarations.rule(name);
      const target = rule && replacedBy(module, rule);
      if (!rule || !target || sameRule(rule, target)) continue;
      const key = `${target.file}\n${target.name}`;
      const group = groups.get(key) ?? { target, by: [] };
      group.by.push(rule);
      groups.set(key, group);
    }
  for (const { target, by } of groups.values()) {
    const [first, second] = by;
    if (!first || !second) continue;
    const own = by.filter(({ file }) => file === module.id);
    const others = by.filter(({ file }) => file !== module.id);
    const [other] = others;
    const note = (rule: Rule) => ({ label: rule.label, place: replacesPlace(rule) });
    for (const rule of other ? own : own.slice(1)) {
      const before = other ?? first;
      report(
        problemAt(ruleReplacedTwice, replacesPlace(rule), {
          replaced: target.label,
          one: note(before),
          two: note(rule),
          mends: replacing(module, rule, before),
        }),
      );
    }
    if (own.length > 0) continue;
    const place = bringingIn(module, by);
    if (place)
      report(
        problemAt(ruleReplacedTwice, place, { replaced: target.label, one: note(first), two: note(second), mends: [] }),
      );
  }
}

/** The line `use` that brings in the second of several rules; none where one file in use has them all and is told itself. */
function bringingIn(module: Module, rules: readonly Rule[]): Place | undefined {
  const reached = module.uses.map(({ target, statement }) => {
    const files = new Set(target === undefined ? [] : module.module(target)?.closure.map(({ id }) => id));
    return { statement, has: rules.filter(({ file }) => files.has(file)).length };
  });
  if (reached.some(({ has }) => has > 1)) return undefined;
  const [, second] = reached.filter(({ has }) => has === 1);
  return second && placeOf(module.id, second.statement, second.statement.path ?? second.statement.head);
}

function at({ rule }: Stated, site: Site): Place {
  return placeOf(rule.file, site.statement, site.span);
}

function replacesLine(rule: Rule): Extract<Statement, { type: 'replaces' }> | undefined {
  for (const item of rule.statement.body?.items ?? []) if (item.type === 'replaces' && item.rule) return item;
  return undefined;
}

function replacesPlace(rule: Rule): Place {
  const line = replacesLine(rule);
  if (line) return placeOf(rule.file, line, line.rule ?? line.head);
  const head = headOf(rule);
  return placeOf(rule.file, head.statement, head.span);
}

function sourceOf({ module, rule }: Stated): SourceNote | undefined {
  return module.citation(rule.source);
}

/** Whether a rule rests on something printed: not on common practice, nor on what an institution has agreed on itself. */
function isPublished({ module, rule }: Stated): boolean {
  if (rule.source === undefined || rule.source === COMMON_PRACTICE) return false;
  const source = sourceNamed(module, rule.source);
  return (
    source !== undefined &&
    !(source.statement.body?.items ?? []).some(
      (item) =>
        item.type === 'value' &&
        item.name.text === 'strength' &&
        item.values.some((value) => value.type === 'path' && value.names[0]?.text === 'local_policy'),
    )
  );
}

function takingOver(is: Stated, was: Stated, { takeOver }: Difference): readonly Mend[] {
  const text = takeOver && textTakenOver(was, takeOver);
  if (!takeOver || text === undefined) return [];
  const { file, statement } = is.rule;
  return takeOver.to === 'new line'
    ? [{ title: `Add "${text}"`, edits: [{ type: 'append', file, statement: statement.id, lines: [text] }] }]
    : [{ title: `Take over "${text.trim()}"`, edits: [{ type: 'replace', place: at(is, takeOver.to), text }] }];
}

function removing(module: Module, rule: Rule, then: string): readonly Mend[] {
  const line = replacesLine(rule);
  if (!line) return [];
  return [
    {
      title: `Remove "replaces ${line.rule?.text ?? ''}": ${then}`,
      edits: [{ type: 'remove', file: module.id, statement: line.id }],
    },
  ];
}

/** The newer rule replaces the one before it, so that they stand in a row. */
function replacing(module: Module, rule: Rule, before: Rule): readonly Mend[] {
  const nearest = module.closure.find((scope) => scope.rules.has(before.name));
  if (nearest?.id !== before.file || before.name === rule.name) return [];
  return [
    {
      title: `Replace "${before.label}" instead`,
      edits: [{ type: 'replace', place: replacesPlace(rule), text: before.name }],
    },
  ];
}
