import type { Statement } from '@curette/grammar';
import { impossibleMove } from '../../problems/impossible_move.ts';
import { lanesConflict } from '../../problems/lanes_conflict.ts';
import { leftUndone } from '../../problems/left_undone.ts';
import type { Mend, Place, Problem, Related } from '../../problems/problem.ts';
import { problemAt } from '../../problems/problem.ts';
import { ruleBroken } from '../../problems/rule_broken.ts';
import { ruleOrderBroken } from '../../problems/rule_order_broken.ts';
import { unmetNeed } from '../../problems/unmet_need.ts';
import { unreachableStep } from '../../problems/unreachable_step.ts';
import { waitInVain } from '../../problems/wait_in_vain.ts';
import { wrongState } from '../../problems/wrong_state.ts';
import { placeOf, type Track } from '../model.ts';
import { firstName } from '../rules/first-name.ts';
import { wordsOf } from '../rules/pattern.ts';
import { type Flow, siteOf } from './flow.ts';
import { labelOf, placeAtThing, verbOf, type Way } from './flow-words.ts';
import type { Ending, StateFinding } from './following.ts';
import { insertStep, stepInto } from './mends.ts';
import { spanOfFilling } from './plan.ts';
import { type Possibilities, type Possibility, whenWords } from './possibility.ts';
import type { Telling } from './telling.ts';
import type { Thing } from './things.ts';
import { undecidedProblem } from './undecided.ts';
import { wordClock } from './word-clock.ts';
import { wordRuleClock } from './word-rule-clock.ts';

/** The problems that a finding amounts to; none when it turns out to hold. */
export function wordFinding(telling: Telling, finding: StateFinding): readonly Problem[] {
  if (finding.type === 'clock') return wordClock(telling, finding);
  if (finding.type === 'rule clock') return wordRuleClock(telling, finding);
  const problem = wordOne(telling, finding);
  return problem ? [problem] : [];
}

function wordOne(
  telling: Telling,
  finding: Exclude<StateFinding, { type: 'clock' | 'rule clock' }>,
): Problem | undefined {
  const { module } = telling;
  switch (finding.type) {
    case 'wrong state': {
      const { need, flow } = finding;
      const mend = mendBefore(telling, flow, need.thing, finding.bad, [need.state], need.track);
      return problemAt(wrongState, placeAtThing(flow, need.thing), {
        thing: need.thing.label,
        needed: need.state,
        step: labelOf(flow),
        ways: waysOf(telling, finding.bad),
        always: finding.all,
        because: need.ground.because,
        source:
          module.citation(need.ground.source) ?? module.module(need.ground.place.file)?.citation(need.ground.source),
        related: [...relatedSince(telling, finding.bad), ...relatedInside(flow)],
        mends: mend ? [mend] : [],
      });
    }
    case 'impossible move': {
      const { set, flow } = finding;
      return problemAt(impossibleMove, placeAtThing(flow, set.thing), {
        thing: set.thing.label,
        to: set.state,
        step: labelOf(flow),
        ways: waysOf(telling, finding.bad),
        always: finding.all,
        related: [...relatedSince(telling, finding.bad), ...relatedInside(flow)],
        mends: mendsOf(
          mendBefore(
            telling,
            flow,
            set.thing,
            finding.bad,
            [...set.track.states].filter((state) => set.track.moves.get(state)?.has(set.state)),
            set.track,
          ),
        ),
      });
    }
    case 'condition': {
      const { check, answer, flow, bad } = finding;
      const words = wordsOf(check.expr, check.environment);
      const filling = check.environment.filling(firstName(check.expr) ?? '');
      const place: Place =
        flow.call ??
        check.place ??
        placeOf(flow.file, flow.statement, filling ? spanOfFilling(filling) : flow.statement.head);
      if (answer.answer === 'undecided')
        return undecidedProblem(module, place, { what: words, rule: check.rule?.name }, answer);
      if (check.rule)
        return problemAt(ruleBroken, place, {
          rule: check.rule.name,
          label: check.rule.label,
          severity: check.rule.severity,
          expected: words,
          always: answer.answer === 'never',
          when: whensOf(bad),
          solved: undefined,
          why: check.rule.why,
          source: module.citation(check.rule.source) ?? module.module(check.rule.file)?.citation(check.rule.source),
          declared: placeOf(check.rule.file, check.rule.statement, check.rule.statement.head),
          bound: [],
          expr: check.expr,
        });
      return problemAt(unmetNeed, place, {
        verb: verbOf(flow),
        condition: words,
        always: answer.answer === 'never',
        when: whensOf(bad),
        solved: undefined,
        because: check.ground?.because,
        source: module.citation(check.ground?.source),
        declared: check.ground?.place,
      });
    }
    case 'mark': {
      const { rule } = finding.mark.monitor;
      if (!rule) return undefined;
      return problemAt(ruleOrderBroken, siteOf(finding.flow), {
        rule: rule.name,
        label: rule.label,
        severity: rule.severity,
        wrong: finding.mark.mayWords,
        missing: false,
        always: finding.all,
        when: whensOf(finding.bad),
        mends:
          finding.mark.monitor.line !== undefined && !finding.flow.call
            ? [
                insertStep(`Add "${finding.mark.monitor.line}" before this step`, finding.mark.monitor.line, {
                  where: 'before',
                  file: module.id,
                  statement: finding.flow.statement.id,
                }),
              ]
            : [],
        why: rule.why,
        source: module.citation(rule.source) ?? module.module(rule.file)?.citation(rule.source),
        declared: placeOf(rule.file, rule.statement, rule.statement.head),
      });
    }
    case 'monitor end': {
      const { rule } = finding.monitor;
      if (!rule) return undefined;
      return problemAt(ruleOrderBroken, owedPlace(telling, finding) ?? endPlace(telling, finding.end), {
        rule: rule.name,
        label: rule.label,
        severity: rule.severity,
        wrong: finding.monitor.endWords,
        missing: true,
        always: finding.all,
        when: whensOf(finding.bad),
        mends:
          finding.monitor.line !== undefined
            ? [
                insertStep(
                  `Add "${finding.monitor.line}"`,
                  finding.monitor.line,
                  finding.end.type === 'stop'
                    ? { where: 'before', file: module.id, statement: finding.end.stop.statement.id }
                    : { file: module.id, statement: telling.visit.id },
                ),
              ]
            : [],
        why: rule.why,
        source: module.citation(rule.source) ?? module.module(rule.file)?.citation(rule.source),
        declared: placeOf(rule.file, rule.statement, rule.statement.head),
      });
    }
    case 'left': {
      const { thing, duty, end, bad } = finding;
      const [first] = bad;
      const since = first?.since === undefined ? undefined : telling.flow(first.since);
      const place = since
        ? placeAtThing(since, thing)
        : thing.statement
          ? placeOf(module.id, thing.statement, thing.statement.name)
          : endPlace(telling, end);
      return problemAt(leftUndone, place, {
        thing: thing.label,
        allowed: duty.states,
        by: endWords(end, telling),
        ways: waysOf(telling, bad),
        always: finding.all,
        because: duty.ground.because,
        source:
          module.citation(duty.ground.source) ?? module.module(duty.ground.place.file)?.citation(duty.ground.source),
        related: [{ place: endPlace(telling, end), message: `${endWords(end, telling)}: still ${stateWords(bad)}` }],
        mends: mendsOf(mendForDuty(telling, thing, duty.states, bad, end, since)),
      });
    }
    case 'unreachable':
      return problemAt(unreachableStep, siteOf(finding.flow), {
        after: siteOf(finding.after),
        file: finding.flow.file,
        statement: finding.flow.statement.id,
      });
    case 'lanes':
      return problemAt(lanesConflict, placeAtThing(finding.step, finding.thing), {
        thing: finding.thing.label,
        other: placeAtThing(finding.other, finding.thing),
        verb: verbOf(finding.step),
        otherVerb: verbOf(finding.other),
      });
    case 'wait in vain':
      return problemAt(waitInVain, siteOf(finding.flow), {
        thing: finding.thing.label,
        state: finding.state,
        ways: waysOf(telling, finding.bad),
        always: finding.all,
        byItself: passes(finding),
        mends: passingMend(telling, finding),
      });
    default:
      return finding satisfies never;
  }
}

/** A state that comes by itself is waited for first, where its age is what is waited for. */
function passingMend(telling: Telling, finding: Extract<StateFinding, { type: 'wait in vain' }>): readonly Mend[] {
  const { flow, thing, state } = finding;
  if (flow.call || !passes(finding)) return [];
  return [
    insertStep(
      `Wait until ${thing.label} is ${state.replaceAll('_', ' ')} first`,
      `wait until ${thing.name} is ${state}`,
      { where: 'before', file: telling.module.id, statement: flow.statement.id },
    ),
  ];
}

function passes({ thing, state, bad }: Extract<StateFinding, { type: 'wait in vain' }>): boolean {
  return bad.every((one) => thing.kind.ages.some((age) => age.then === state && age.state === one.state));
}

function waysOf(telling: Telling, possibilities: Possibilities): readonly Way[] {
  return possibilities.map((one) => ({
    state: one.state,
    since: one.since === undefined ? undefined : labelOf(telling.flow(one.since)),
    when: whenWords(one.when),
  }));
}

function whensOf(possibilities: Possibilities): string | undefined {
  const words = [...new Set(possibilities.map((one) => whenWords(one.when)).filter((when) => when !== ''))];
  return words.length > 0 ? words.join(', or ') : undefined;
}

function stateWords(possibilities: Possibilities): string {
  return [...new Set(possibilities.map((one) => one.state.replaceAll('_', ' ')))].join(' or ');
}

function relatedSince(telling: Telling, possibilities: Possibilities): Related[] {
  const related: Related[] = [];
  for (const one of possibilities) {
    const flow = one.since === undefined ? undefined : telling.flow(one.since);
    if (flow) related.push({ place: siteOf(flow), message: `${one.state.replaceAll('_', ' ')} since this step` });
  }
  return related;
}

function relatedInside(flow: Flow): Related[] {
  if (!flow.call) return [];
  return [
    {
      place: { file: flow.file, statement: flow.statement.id, span: flow.statement.head },
      message: 'the step inside the procedure',
    },
  ];
}

function endPlace(telling: Telling, end: Ending): Place {
  switch (end.type) {
    case 'pause':
      return siteOf(end.pause);
    case 'stop':
      return siteOf(end.stop);
    case 'visit':
    case 'protocol':
      return placeOf(telling.module.id, telling.visit, telling.visit.head);
    default:
      return end satisfies never;
  }
}

/** The step because of which something is owed, where that is one and the same on every path. */
function owedPlace(
  telling: Telling,
  { monitor, bad }: Extract<StateFinding, { type: 'monitor end' }>,
): Place | undefined {
  const [first, ...others] = bad;
  if (!monitor.toldWhereOwed || first?.since === undefined) return undefined;
  const flow = others.every(({ since }) => since === first.since) ? telling.flow(first.since) : undefined;
  const option = flow?.type === 'decide' ? flow.branches.find(({ id }) => id === first.since)?.statement : undefined;
  if (flow && option && !flow.call) return placeOf(flow.file, option, option.head);
  return flow && siteOf(flow);
}

function endWords(end: Ending, telling: Telling): string {
  switch (end.type) {
    case 'pause':
      return `at ${labelOf(end.pause)}`;
    case 'stop':
      return `where the path ends ("${labelOf(end.stop)}")`;
    case 'visit':
      return `at the end of ${visitWords(telling.visit)}`;
    case 'protocol':
      return 'at the end of the protocol';
    default:
      return end satisfies never;
  }
}

function visitWords(visit: Statement): string {
  return visit.type === 'visit' && visit.label ? `"${visit.label.value}"` : 'the visit';
}

function mendsOf(mend: Mend | undefined): readonly Mend[] {
  return mend ? [mend] : [];
}

function mendBefore(
  telling: Telling,
  flow: Flow,
  thing: Thing,
  bad: Possibilities,
  into: readonly string[],
  track: Track,
): Mend | undefined {
  const [first] = bad;
  if (!first || flow.call) return undefined;
  const near = first.since === undefined ? undefined : telling.flow(first.since);
  const text = stepInto(telling, thing, track, first.state, into, near ?? flow);
  if (text === undefined) return undefined;
  const home = branchOf(first, telling);
  if (!home && foundEarlier(first)) return undefined;
  const title = `Add the missing step: ${text}`;
  return home
    ? insertStep(title, text, { file: telling.module.id, statement: home })
    : insertStep(title, text, { where: 'before', file: telling.module.id, statement: flow.statement.id });
}

function mendForDuty(
  telling: Telling,
  thing: Thing,
  allowed: readonly string[],
  bad: Possibilities,
  end: Ending,
  since: Flow | undefined,
): Mend | undefined {
  const [first] = bad;
  if (!first || since?.call) return undefined;
  const track = thing.kind.tracks.find((other) => other.states.has(first.state));
  if (!track) return undefined;
  const text = stepInto(telling, thing, track, first.state, allowed, since);
  if (text === undefined) return undefined;
  const title = `Add the missing step: ${text}`;
  const file = telling.module.id;
  const home = branchOf(first, telling);
  if (!home && foundEarlier(first)) return undefined;
  if (home) return insertStep(title, text, { file, statement: home });
  if (end.type === 'pause')
    return insertStep(title, text, { where: 'before', file, statement: end.pause.statement.id });
  if (end.type === 'stop') return insertStep(title, text, { where: 'before', file, statement: end.stop.statement.id });
  // Before the pause that closes the visit, where there is one: what comes out comes out before it is counted.
  const { after } = end;
  return after?.type === 'pause'
    ? insertStep(title, text, { where: 'before', file, statement: after.statement.id })
    : insertStep(title, text, { file, statement: telling.visit.id });
}

/** The option in which alone a way arises, if its step is to be added there and not for every path. */
function branchOf(one: Possibility, telling: Telling): number | undefined {
  return telling.branch(one.when);
}

/** Whether a way hangs on what was found in an earlier visit: a step for it would have to ask for that finding again. */
function foundEarlier(one: Possibility): boolean {
  return one.when.some((assumption) => assumption.key.includes('@'));
}
