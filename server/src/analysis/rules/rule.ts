import type { Expr, Name, Pattern, RuleStatement, Statement } from '@curette/grammar';
import { notJudged } from '../../problems/not_judged.ts';
import { problemAt, type Report, type Severity } from '../../problems/problem.ts';
import { ruleIncomplete } from '../../problems/rule_incomplete.ts';
import { unknownAction } from '../../problems/unknown_action.ts';
import { unknownName } from '../../problems/unknown_name.ts';
import { unknownProperty } from '../../problems/unknown_property.ts';
import { wrongMeasure } from '../../problems/wrong_measure.ts';
import { wrongWord } from '../../problems/wrong_word.ts';
import { resolveSlot } from '../actions/action.ts';
import { kindOrReport } from '../kinds/kind.ts';
import { readQuantity } from '../kinds/quantity.ts';
import { secondsOf } from '../kinds/seconds.ts';
import { type PatternModel, placeOf, type Rule, type RuleForm, type SlotModel } from '../model.ts';
import { lookUpVerb, type Module, visibleNames } from '../names/module.ts';
import { checkFinding, checkFindingsAsked } from './check-findings.ts';
import { takesTogether } from './evaluate.ts';
import { firstName } from './first-name.ts';
import { checkPause } from './pause.ts';

const SEVERITIES: readonly string[] = ['error', 'warning', 'advice'] satisfies Severity[];

/** Resolves a rule into the forms that can be judged, and says which of its lines cannot be yet. */
export function resolveRule(module: Module, statement: RuleStatement, name: string, report: Report): Rule {
  const file = module.id;
  const forms: RuleForm[] = [];
  const items = statement.body?.items ?? [];
  const expect = items.flatMap((item) => (item.type === 'expect' && item.condition ? [item.condition] : []));
  let severity: Severity | undefined;
  let why: string | undefined;
  let source: string | undefined;
  let replaces: string | undefined;

  const missing: string[] = [];

  for (const item of items) {
    switch (item.type) {
      case 'whenever': {
        const pattern = item.pattern && resolvePattern(module, item, item.pattern, report);
        if (!pattern) break;
        checkFindingsAsked(module, item, item.where, pattern.slots, report);
        forms.push({ type: 'whenever', pattern, where: item.where, expect });
        break;
      }
      case 'pause rule': {
        const pattern = item.pattern && resolvePattern(module, item, item.pattern, report);
        if (item.pause) checkPause(module, item, item.pause, report);
        if (pattern && item.pause && item.relation)
          forms.push({ type: 'pause', pause: item.pause.text, relation: item.relation, pattern });
        break;
      }
      case 'order': {
        const first = item.first && resolvePattern(module, item, item.first, report);
        const second = item.second && resolvePattern(module, item, item.second, report);
        if (!first || !item.relation) break;
        const relation = item.only && item.relation === 'after' ? 'only after' : item.relation;
        forms.push({ type: 'order', relation, first, second, scope: item.scope ?? 'visit' });
        break;
      }
      case 'count': {
        const pattern = item.pattern && resolvePattern(module, item, item.pattern, report);
        if (!pattern || item.times === undefined) break;
        forms.push({
          type: 'count',
          pattern,
          least: item.bound === 'at most' ? 0 : item.times,
          most: item.bound === 'at least' ? Number.POSITIVE_INFINITY : item.times,
          scope: item.scope ?? 'visit',
        });
        break;
      }
      case 'every': {
        const kind = item.kind && kindOrReport(module, item, item.kind, report);
        if (kind) forms.push({ type: 'every', kind, properties: item.properties.map((property) => property.text) });
        break;
      }
      case 'between': {
        const first = item.first && resolvePattern(module, item, item.first, report);
        const second = item.second && resolvePattern(module, item, item.second, report);
        if (first && second && item.property) {
          const { side, value } = item.property;
          const name = firstName(value);
          if (second.slots.some((slot) => slot.name === name))
            forms.push({ type: 'between', first, second, limit: { side, value } });
          else missing.push('a time that is written, or that a thing of the second step states');
          break;
        }
        const limit = item.bound && readQuantity(module, item, item.bound, report);
        if (!first || !second || !item.bound || !limit) break;
        const time = secondsOf(limit);
        if (time) {
          const open = time.lo === time.hi && item.bound.form !== 'exactly';
          const most = open ? Number.POSITIVE_INFINITY : time.hi;
          forms.push({ type: 'between', first, second, limit: { written: limit, least: time.lo, most } });
        } else {
          forms.push({ type: 'not judged', about: 'the time between two steps', verbs: [] });
          report(
            problemAt(wrongMeasure, placeOf(file, item, item.bound), {
              what: 'limit',
              wanted: 'time',
              found: limit,
              calendar: false,
            }),
          );
        }
        break;
      }
      case 'for each': {
        const kind = item.kind && kindOrReport(module, item, item.kind, report);
        if (!kind) break;
        const name = item.name?.text ?? item.kind?.text ?? '';
        forms.push({
          type: 'total',
          together: item.together,
          kind,
          name,
          how: item.how ?? 'used',
          scope: item.scope ?? 'visit',
          where: item.where,
          expect,
        });
        if (item.together && expect.some((condition) => standsAlone(condition, name)))
          missing.push('how all of them are taken together, as sum(…) does');
        break;
      }
      case 'severity':
        if (item.level && SEVERITIES.includes(item.level.text)) severity = item.level.text as Severity;
        else if (item.level)
          report(
            problemAt(wrongWord, placeOf(file, item, item.level), {
              what: 'severity',
              word: item.level.text,
              allowed: SEVERITIES,
              place: placeOf(file, item, item.level),
            }),
          );
        break;
      case 'why':
        why = item.text?.value;
        break;
      case 'source reference':
        source = item.source?.text;
        break;
      case 'replaces':
        if (replaces !== undefined && item.rule)
          report(
            problemAt(notJudged, placeOf(file, item, item.head), {
              what: 'a second rule that is replaced: one takes the place of one',
            }),
          );
        replaces ??= item.rule?.text;
        if (item.rule && !module.closure.some((scope) => scope.rules.has(item.rule?.text ?? ''))) {
          const place = placeOf(file, item, item.rule);
          report(
            problemAt(unknownName, place, {
              name: item.rule.text,
              wanted: 'rule',
              candidates: module.closure.flatMap((scope) => [...scope.rules.keys()]),
              library: module.elsewhere(['rules'], item.rule.text),
              place,
            }),
          );
        }
        break;
      default:
        break;
    }
  }
  if (forms.length === 0) missing.push('what it asks for');
  if (forms.some((form) => (form.type === 'whenever' || form.type === 'total') && form.expect.length === 0))
    missing.push('what to expect');
  if (why === undefined) missing.push('why');
  if (source === undefined) missing.push('source');
  if (missing.length > 0)
    report(problemAt(ruleIncomplete, placeOf(file, statement, statement.name ?? statement.head), { name, missing }));
  return {
    file,
    statement,
    name,
    label: statement.label?.value ?? name.replaceAll('_', ' '),
    severity: severity ?? 'warning',
    why,
    source,
    forms,
    replaces,
  };
}

function resolvePattern(module: Module, statement: Statement, node: Pattern, report: Report): PatternModel | undefined {
  if (!node.verb) return undefined;
  const slots = node.slots.map((slot) => resolveSlot(module, statement, slot, report));
  const values = new Set(node.values.map(({ text }) => text));
  switch (node.sort) {
    case 'pause':
      checkPause(module, statement, node.verb, report);
      break;
    case 'finding':
      checkFinding(module, statement, node.verb, node.values, report);
      break;
    case 'verify':
      checkMeasured(module, statement, node.verb, slots, report);
      break;
    case 'record':
    case 'stop':
      break;
    case 'step':
      checkVerb(module, statement, node.verb, report);
      break;
    default:
      node.sort satisfies never;
  }
  checkFindingsAsked(module, statement, node.where, slots, report);
  const others = node.others
    .map((other) => resolvePattern(module, statement, other, report))
    .filter((other) => other !== undefined);
  return { sort: node.sort, verb: node.verb.text, slots, values, where: node.where, others, node };
}

function checkVerb(module: Module, statement: Statement, verb: Name, report: Report): void {
  if (lookUpVerb(module, verb.text).length > 0) return;
  const place = placeOf(module.id, statement, verb);
  report(
    problemAt(unknownAction, place, {
      verb: verb.text,
      candidates: visibleNames(module, 'verbs'),
      library: module.elsewhere(['verbs'], verb.text),
      place,
    }),
  );
}

/** What a rule asks to be measured is something that a thing of the kind has. */
function checkMeasured(
  module: Module,
  statement: Statement,
  property: Name,
  [slot]: readonly SlotModel[],
  report: Report,
): void {
  if (slot?.accepts.type !== 'kind' || slot.accepts.kind.properties.has(property.text)) return;
  const { kind } = slot.accepts;
  const place = placeOf(module.id, statement, property);
  report(
    problemAt(unknownProperty, place, {
      property: property.text,
      kind: kind.label,
      known: [...kind.properties.keys()],
      place,
    }),
  );
}

/** Whether a condition speaks of one of several things taken together without saying how they are taken together. */
function standsAlone(expr: Expr | undefined, name: string): boolean {
  switch (expr?.type) {
    case 'and':
    case 'or':
    case 'compare':
    case 'arithmetic':
      return standsAlone(expr.left, name) || standsAlone(expr.right, name);
    case 'not':
      return standsAlone(expr.operand, name);
    case 'is':
    case 'relation':
    case 'state':
      return standsAlone(expr.subject, name);
    case 'call':
      return !takesTogether(expr) && expr.args.some((argument) => standsAlone(argument, name));
    case 'path':
      return expr.names[0]?.text === name;
    default:
      return false;
  }
}
