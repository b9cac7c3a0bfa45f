import type { CaseStatement, Expr } from '@curette/grammar';
import { caseCautioned } from '../../problems/case_cautioned.ts';
import { caseContraindicated } from '../../problems/case_contraindicated.ts';
import { caseExcluded } from '../../problems/case_excluded.ts';
import { type Place, problemAt, type Report } from '../../problems/problem.ts';
import { undecidedNeed } from '../../problems/undecided.ts';
import { fitsKind } from '../kinds/subkind.ts';
import { type Contraindication, placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';
import { kindNamed } from '../names/resolve.ts';
import { actionsUsed } from '../protocol/contraindications.ts';
import type { ProtocolFacts } from '../protocol/protocol.ts';
import type { Thing, Things } from '../protocol/things.ts';
import { usageOf } from '../protocol/usage.ts';
import type { Environment } from '../rules/evaluate.ts';
import { judge } from '../rules/judge.ts';
import { wordsOf } from '../rules/pattern.ts';
import type { CaseLine } from './lines.ts';
import { type CasesProtocol, labelOf } from './of.ts';

/** Whether the protocol is for this patient at all, with what care, and whether all that is used on the way may be. */
export function checkPatient(
  statement: CaseStatement,
  module: Module,
  of: CasesProtocol,
  protocol: ProtocolFacts,
  lines: readonly CaseLine[],
  report: Report,
): void {
  const { things } = protocol.context;
  const environment = environmentOf(of.module, things);
  const placeOfExpr = (expr: Expr): Place =>
    lineAskedBy(expr, lines)?.place ?? placeOf(module.id, statement, statement.name ?? statement.head);
  const spoken = new Set<string>();
  for (const item of things.key) {
    if ((item.type !== 'exclude' && item.type !== 'caution') || !item.condition) continue;
    const answer = judge(item.condition, environment);
    if (answer.answer === 'never') continue;
    const data = {
      protocol: labelOf(of),
      condition: wordsOf(item.condition, environment),
      because: item.because?.value,
      source: of.module.citation(item.source?.text),
      declared: placeOf(of.module.id, item, item.head),
    };
    const place = placeOfExpr(item.condition);
    if (answer.answer === 'undecided') {
      report(
        problemAt(undecidedNeed, place, {
          what: `whether "${labelOf(of)}" ${item.type === 'exclude' ? 'excludes this case' : 'asks for care here'}: ${data.condition}`,
          missing: answer.missing,
          rule: undefined,
        }),
      );
      continue;
    }
    const always = answer.answer === 'always';
    if (item.type === 'exclude') report(problemAt(caseExcluded, place, { ...data, always }));
    else report(problemAt(caseCautioned, place, data));
    if (item.type === 'exclude') for (const relation of relationsIn(item.condition)) spoken.add(relation);
  }

  const chunks = protocol.visits.flatMap((visit) => visit.chunks);
  const ask = (
    list: readonly Contraindication[],
    subject: { is: string; label: string; listed: Place; done: boolean },
  ) => {
    for (const { condition, ground, strictly } of list) {
      // What asks for care only, the protocol speaks of, and that is told above.
      if (!strictly) continue;
      const home = of.module.module(ground.place.file) ?? of.module;
      if (judge(condition, environmentOf(home, things)).answer !== 'always') continue;
      // An exclusion for the same reason has said it.
      if (relationsIn(condition).some((relation) => spoken.has(relation))) continue;
      report(
        problemAt(caseContraindicated, placeOfExpr(condition), {
          ...subject,
          condition: wordsOf(condition, environmentOf(home, things)),
          because: ground.because,
          source: home.citation(ground.source),
          declared: ground.place,
        }),
      );
    }
  };
  const used = new Set(chunks.flatMap((chunk) => [...usageOf(chunk).used]));
  for (const { statement: listed, group, name, label, entry, kind } of things.byName.values())
    if (listed && group !== 'given' && used.has(name))
      ask(entry?.contraindications ?? kind.contraindications, {
        is: entry?.label ?? kind.label,
        label,
        listed: placeOf(of.module.id, listed, listed.name),
        done: false,
      });
  for (const [action, place] of actionsUsed(chunks))
    ask(action.contraindications, { is: action.label, label: action.label, listed: place, done: true });
}

/** Whether a line of a protocol about some patients speaks of this one. */
export function concerns(of: Module, things: Things, condition: Expr): boolean {
  return judge(condition, environmentOf(of, things)).answer !== 'never';
}

function environmentOf(module: Module, things: Things): Environment {
  return {
    module,
    filling: () => undefined,
    thing: (name) => things.byName.get(name) ?? givenAs(module, things, name) ?? things.unlisted(name),
    state: undefined,
  };
}

/** A contraindication names its patient by the kind. */
function givenAs(module: Module, things: Things, name: string): Thing | undefined {
  const kind = kindNamed(module, name);
  if (!kind) return undefined;
  for (const thing of things.byName.values()) if (thing.group === 'given' && fitsKind(thing.kind, kind)) return thing;
  return undefined;
}

/** The line that answers a condition: of what it asks, the first that the case says. */
function lineAskedBy(expr: Expr, lines: readonly CaseLine[]): CaseLine | undefined {
  const asked = new Set(relationsIn(expr));
  const named = new Set(propertiesIn(expr));
  return (
    lines.find((line) => line.type === 'condition' && asked.has(line.condition)) ??
    lines.find((line) => line.type === 'value' && named.has(line.value.name))
  );
}

function relationsIn(expr: Expr | undefined): string[] {
  switch (expr?.type) {
    case 'relation':
      return expr.value ? [`${expr.relation} ${expr.value.text}`] : [];
    case 'and':
    case 'or':
      return [...relationsIn(expr.left), ...relationsIn(expr.right)];
    case 'not':
      return relationsIn(expr.operand);
    default:
      return [];
  }
}

function propertiesIn(expr: Expr | undefined): string[] {
  switch (expr?.type) {
    case 'path':
      return expr.names.slice(1).map(({ text }) => text);
    case 'and':
    case 'or':
    case 'compare':
    case 'arithmetic':
      return [...propertiesIn(expr.left), ...propertiesIn(expr.right)];
    case 'not':
      return propertiesIn(expr.operand);
    case 'is':
    case 'state':
      return propertiesIn(expr.subject);
    default:
      return [];
  }
}
