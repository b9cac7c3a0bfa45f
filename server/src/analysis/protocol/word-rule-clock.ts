import { formatQuantity, type Quantity } from '@curette/shared';
import { type Problem, problemAt } from '../../problems/problem.ts';
import { ruleTimeBroken } from '../../problems/rule_time_broken.ts';
import { placeOf } from '../model.ts';
import type { RuleClockFinding, RuleReading } from './clock-readings.ts';
import { siteOf } from './flow.ts';
import { labelOf } from './flow-words.ts';
import { whenWords } from './possibility.ts';
import type { Telling } from './telling.ts';

/** Both ends of the time that a rule asks for between two steps. */
export function wordRuleClock(telling: Telling, finding: RuleClockFinding): Problem[] {
  const reading = telling.ruleClock(finding);
  const { rule, elapsed, soon, late, dates, flow, since, when } = reading;
  const { module } = telling;
  const began = since === undefined ? undefined : telling.flow(since);
  const shared = {
    rule: rule.name,
    label: rule.label,
    severity: rule.severity,
    first: labelOf(began),
    second: labelOf(flow),
    firstPlace: began && siteOf(began),
    limit: limitOfRule(reading),
    dates,
    when: whenWords(when),
    why: rule.why,
    source: module.citation(rule.source) ?? module.module(rule.file)?.citation(rule.source),
    declared: placeOf(rule.file, rule.statement, rule.statement.head),
  };
  const tell = (data: Pick<Parameters<typeof ruleTimeBroken.words>[0], 'side' | 'always' | 'seconds'>) =>
    problemAt(ruleTimeBroken, siteOf(flow), { ...shared, ...data, tries: [] });
  if (!elapsed || (elapsed.gap && late !== 'always breaks') || soon === 'not told')
    return [tell({ side: 'not told', always: false, seconds: 0 })];
  const problems: Problem[] = [];
  if (soon !== 'holds') {
    const always = soon === 'always breaks';
    problems.push(tell({ side: 'too soon', always, seconds: always ? elapsed.hi : elapsed.lo }));
  }
  if (late === 'not told') problems.push(tell({ side: 'not told', always: false, seconds: 0 }));
  else if (late !== 'holds') {
    const always = late === 'always breaks';
    problems.push(tell({ side: 'too late', always, seconds: always ? elapsed.lo : elapsed.hi }));
  }
  return problems;
}

/** "at least 4 months" */
export function limitOfRule({ limit }: Pick<RuleReading, 'limit'>): string {
  return timeLimitWords(limit.written, limit.most);
}

/** A time that is asked for: a single one has to pass, and may be passed unless it is bounded. */
export function timeLimitWords(written: Quantity, most: number): string {
  const single = written.range.lo === written.range.hi;
  return `${single ? (Number.isFinite(most) ? 'exactly ' : 'at least ') : ''}${formatQuantity(written)}`;
}
