import type { ContraindicatedStatement, Expr, Statement, WarningStatement } from '@curette/grammar';
import { notJudged } from '../../problems/not_judged.ts';
import { problemAt, type Report } from '../../problems/problem.ts';
import { unknownName } from '../../problems/unknown_name.ts';
import { type Contraindication, placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';
import { kindNamed } from '../names/resolve.ts';
import { groundOf } from './ground.ts';

/** Reads `contraindicated when …` or `caution when …` of a kind, an entry or an action; undefined while it is half typed. */
export function readContraindication(
  module: Module,
  item: ContraindicatedStatement | WarningStatement,
  report: Report,
): Contraindication | undefined {
  const { condition, type } = item;
  if (!condition) return undefined;
  checkContraindication(module, item, condition, report);
  return { condition, strictly: type === 'contraindicated', ground: groundOf(module.id, item, item) };
}

/**
 * A contraindication asks what somebody `has`, `takes` or is `allergic to`, from the closed sets of that somebody's kind. Any other
 * condition is said not to be judged.
 */
function checkContraindication(module: Module, statement: Statement, condition: Expr, report: Report): void {
  switch (condition.type) {
    case 'and':
    case 'or':
      checkContraindication(module, statement, condition.left, report);
      if (condition.right) checkContraindication(module, statement, condition.right, report);
      break;
    case 'relation': {
      const { subject, relation, value } = condition;
      const [name] = subject.type === 'path' ? subject.names : [];
      const kind = name && kindNamed(module, name.text);
      if (!kind || !value || kind.relations[relation].has(value.text)) break;
      const place = placeOf(module.id, statement, value);
      report(
        problemAt(unknownName, place, {
          name: value.text,
          wanted: `value for "${relation}"`,
          candidates: kind.relations[relation],
          library: undefined,
          place,
        }),
      );
      break;
    }
    default:
      report(
        problemAt(notJudged, placeOf(module.id, statement, condition), {
          what: 'a contraindication that does not ask what somebody has, takes or is allergic to',
        }),
      );
  }
}
