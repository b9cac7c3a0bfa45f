import type { ProtocolStatement, Statement, StatementOf, WaitStatement } from '@curette/grammar';
import { figuresNotApplied } from '../../problems/figures_not_applied.ts';
import type { Problem, Report } from '../../problems/problem.ts';
import { guard } from '../guard.ts';
import type { Rule } from '../model.ts';
import type { Module } from '../names/module.ts';
import { rulesApplying } from '../names/resolve.ts';
import { once } from '../once.ts';
import { sameItems } from '../same-items.ts';
import { checkTotals } from './check-totals.ts';
import { type Chunk, chunksOf, perChunk } from './chunks.ts';
import {
  type ClockFinding,
  type RuleClockFinding,
  readClock,
  readRuleClock,
  type VisitClocks,
  visitClocks,
} from './clock-readings.ts';
import { type Clock, clockOf } from './clocks.ts';
import { checkContraindications } from './contraindications.ts';
import { type Course, courseOf, type Gap, gapOf } from './course.ts';
import type { Filled } from './filled.ts';
import { type Assumption, type Flow, type FlowId, forEachFlow } from './flow.ts';
import { enterVisit, type Following, initialStates, type StateFinding } from './following.ts';
import { checkHead } from './head.ts';
import { type Lowering, lowerItems } from './lower.ts';
import { monitorsOf } from './monitors.ts';
import { protocolScope } from './name-scope.ts';
import { checkNotJudged } from './not-judged.ts';
import { checkOpenDays } from './open-days.ts';
import { endOf } from './owed.ts';
import { type States, sameStates } from './possibility.ts';
import { checkRoles } from './roles-in-lanes.ts';
import { readThings, type Things, thingsKey } from './things.ts';
import { checkRepeated, checkUsage, usageOf } from './usage.ts';
import { type FollowedVisit, followVisit } from './visit.ts';
import { wordConflict } from './word-clock.ts';
import { wordFinding } from './word-findings.ts';
import { writingOf } from './writing.ts';

/** What a protocol's steps are judged against; the same while nothing but steps has changed. */
export interface ProtocolContext {
  readonly module: Module;
  readonly things: Things;
  readonly rules: readonly Rule[];
  readonly lowering: Lowering;
  readonly following: Following;
  /** what a case says of it */
  readonly filled: Filled | undefined;
}

export interface VisitFacts {
  readonly statement: StatementOf<'visit'>;
  readonly items: readonly Flow[];
  readonly followed: FollowedVisit;
  /** found at the end of the visit, and of the protocol if it is the last */
  readonly ending: readonly StateFinding[];
  /** states after it, what was told at its end marked; undefined: every path stops in it */
  readonly left: States | undefined;
  /** whether the protocol ends with it */
  readonly last: boolean;
  /** the same events in stretches, with what is kept of each */
  readonly chunks: readonly Chunk[];
  readonly clock: () => Clock;
}

export interface ProtocolFacts {
  /** of a case that stops early only as far as it goes */
  readonly statement: ProtocolStatement;
  readonly context: ProtocolContext;
  readonly visits: readonly VisitFacts[];
  readonly problems: readonly Problem[];
  readonly flow: (id: FlowId) => Flow | undefined;
  /** time over the whole protocol */
  readonly course: () => Course;
}

/**
 * Checks one protocol. `previous` is what an earlier version gave; it makes the answer faster, never different.
 * @param filled what a case says of it: what remains of the protocol is then followed alone
 */
export function checkProtocol(
  module: Module,
  whole: ProtocolStatement,
  text: (statement: Statement) => string,
  previous: ProtocolFacts | undefined,
  filled?: Filled,
): ProtocolFacts {
  const context = contextOf(module, whole, filled, previous?.context);
  const problems: Problem[] = [...context.things.problems];
  const report: Report = (problem) => {
    // One line chooses a set, for all that hangs on it.
    const again =
      problem.code === figuresNotApplied.code &&
      problems.some(({ code, label }) => code === problem.code && label === problem.label);
    if (!again) problems.push(problem);
  };
  const pass = (name: string, run: () => void) => guard(module.id, whole, name, report, run);
  pass('head', () => checkHead(module, whole, report));
  pass('open days', () => checkOpenDays(module, whole, module.settings, report));

  const visitStatements = (whole.body?.items ?? []).flatMap((item) => (item.type === 'visit' ? [item] : []));
  const visits: VisitFacts[] = [];
  const flow = flowsById(visits);
  const branch = branchesById(visits);
  let states: States = initialStates();
  let stopped = false;
  visitStatements.forEach((visit, number) => {
    if (stopped) return;
    const old = previous?.visits.find((other) => other.statement.id === visit.id);
    const kept = previous?.context === context ? old : undefined;
    const items = lowerAgain(context.lowering, visit.body?.items ?? [], kept);
    const entry = enterVisit(context.following, states, visitStatements[number - 1]);
    const last = number === visitStatements.length - 1;
    // Nothing of it has changed, nor what it begins with: an edit in one visit is no work for the others.
    if (
      kept?.statement === visit &&
      kept.items === items &&
      kept.last === last &&
      sameStates(kept.followed.entry, entry)
    ) {
      visits.push(kept);
      states = kept.left ?? entry;
      stopped = filled !== undefined && kept.left === undefined;
      return;
    }
    const followed = followVisit(context.following, visit, items, entry, kept?.followed);
    const exit = followed.exit;
    const ending: StateFinding[] = [];
    const noting: Following = { ...context.following, find: (finding) => ending.push(finding) };
    const left = exit && [...exit];
    if (left) {
      const after = items.at(-1);
      endOf(noting, left, { type: 'visit', after });
      if (last) endOf(noting, left, { type: 'protocol', after });
    }
    const chunks = kept?.items === items ? kept.chunks : chunksOf(items, kept?.chunks ?? []);
    visits.push({ statement: visit, items, chunks, followed, ending, left, last, clock: clockWhenAsked(chunks) });
    // A visit that every path leaves early: the next one begins from where it stood at its beginning. A case ends there.
    states = left ?? entry;
    stopped = filled !== undefined && left === undefined;
  });
  const statement = stopped ? upToVisit(whole, visits.at(-1)?.statement) : whole;

  const waitBetween = waitsBetween(statement, visits);
  const writing = writingOf(module, context.things, context.lowering, visits);
  const course = courseWhenAsked(module, statement, visits);
  for (const visit of visits) {
    const clocks = clocksWhenAsked(course, visit);
    const clock = (finding: ClockFinding) => clocks().readings.get(finding) ?? readClock(course(), finding);
    const ruleClock = (finding: RuleClockFinding) => clocks().rules.get(finding) ?? readRuleClock(course(), finding);
    const written = (event: Flow) => text(event.statement);
    const telling = {
      ...writing,
      visit: visit.statement,
      items: visit.items,
      written,
      waitBetween,
      clock,
      ruleClock,
      flow,
      branch,
    };
    const told = new Set<string>();
    const tell = (finding: StateFinding) => {
      pass('wording', () => {
        for (const problem of wordFinding(telling, finding)) {
          const key = `${problem.code}|${problem.place.statement}|${problem.place.span.start}|${problem.message}`;
          if (told.has(key)) continue;
          told.add(key);
          report(problem);
        }
      });
    };
    for (const chunk of visit.chunks) for (const problem of problemsOf(chunk)) report(problem);
    for (const found of visit.followed.found) for (const finding of found) tell(finding);
    for (const finding of visit.ending) tell(finding);
    pass('limits together', () => {
      for (const conflict of clocks().conflicts) for (const problem of wordConflict(conflict)) report(problem);
    });
    pass('repeated steps', () => checkRepeated(module, visit.chunks, written, report));
    pass('roles', () => checkRoles(context, visit.chunks, written, report));
  }
  pass('contraindications', () =>
    checkContraindications(
      module,
      statement,
      context.things,
      visits.flatMap((visit) => visit.chunks),
      report,
    ),
  );
  const usages = visits.flatMap((visit) => visit.chunks.map(usageOf));
  pass('usage', () => checkUsage(module, context.things, usages, likelyMeant(problems), report));
  pass('totals', () =>
    checkTotals(
      module,
      context.things,
      context.rules,
      visits.map((visit) => visit.chunks),
      report,
    ),
  );
  pass('what is not judged', () =>
    checkNotJudged(
      module,
      statement,
      context.rules,
      visits.flatMap((visit) => visit.chunks),
      report,
    ),
  );
  return { statement, context, visits, problems, flow, course };
}

/** The protocol as far as a visit, with what is said about all of it. */
function upToVisit(statement: ProtocolStatement, last: StatementOf<'visit'> | undefined): ProtocolStatement {
  const { body } = statement;
  const end = body && last ? body.items.indexOf(last) + 1 : 0;
  if (!body || end === 0) return statement;
  return { ...statement, body: { ...body, items: body.items.slice(0, end), offsets: body.offsets.slice(0, end) } };
}

/** Names that misspelt ones were most likely meant for: a thing whose name is misspelt is used all the same. */
function likelyMeant(problems: readonly Problem[]): ReadonlySet<string> {
  const names = new Set<string>();
  for (const problem of problems)
    for (const mend of problem.mends)
      for (const edit of mend.edits)
        if (problem.code === 'unknown_name' && edit.type === 'replace') names.add(edit.text);
  return names;
}

/** The time between each visit and the next, from the waits that stand between them. */
function gapsBetween(module: Module, statement: ProtocolStatement): Gap[] {
  const gaps: Gap[] = [];
  let waits: Statement[] = [];
  let seen = false;
  for (const item of statement.body?.items ?? []) {
    if (item.type === 'wait') waits.push(item);
    if (item.type !== 'visit') continue;
    if (seen) gaps.push(gapOf(module, waits));
    seen = true;
    waits = [];
  }
  return gaps;
}

function contextOf(
  module: Module,
  statement: ProtocolStatement,
  filled: Filled | undefined,
  previous: ProtocolContext | undefined,
): ProtocolContext {
  const key = thingsKey(statement);
  if (previous && previous.module === module && previous.filled === filled && sameItems(previous.things.key, key))
    return previous;
  const things = readThings(module, statement, filled);
  const rules = rulesApplying(module);
  const monitors = monitorsOf(module, rules, { module, things });
  return {
    module,
    things,
    rules,
    lowering: {
      scope: protocolScope(module, things),
      rules,
      monitors,
      known: new WeakMap(),
      prefix: '',
      call: undefined,
      calling: [],
      found: filled?.found,
    },
    following: { things, monitors, find: () => undefined, watch: undefined },
    filled,
  };
}

// What follows is kept with the facts. Made inside `checkProtocol`, it would keep what that reaches: the facts of the version
// before, and through them those of every version.

function clockWhenAsked(chunks: readonly Chunk[]): () => Clock {
  return once(() => clockOf(chunks));
}

function courseWhenAsked(module: Module, statement: ProtocolStatement, visits: readonly VisitFacts[]): () => Course {
  return once(() =>
    courseOf(
      visits.map((visit) => visit.clock),
      gapsBetween(module, statement),
    ),
  );
}

function waitsBetween(
  statement: ProtocolStatement,
  visits: readonly VisitFacts[],
): (since: FlowId | undefined, until: FlowId) => WaitStatement | undefined {
  return (since, until) => {
    const items = statement.body?.items ?? [];
    const visitOf = (id: FlowId) => visits.find(({ clock }) => clock().has(id))?.statement;
    const from = since === undefined ? visits[0]?.statement : visitOf(since);
    const to = visitOf(until);
    const between = from && to ? items.slice(items.indexOf(from) + 1, items.indexOf(to)) : [];
    const [wait] = between;
    return between.length === 1 && wait?.type === 'wait' ? wait : undefined;
  };
}

function clocksWhenAsked(course: () => Course, visit: VisitFacts): () => VisitClocks {
  return once(() => visitClocks(course(), visit));
}

/** An event by its id, looked for stretch by stretch. */
function flowsById(visits: readonly VisitFacts[]): (id: FlowId) => Flow | undefined {
  return (id) => {
    for (const visit of visits)
      for (const chunk of visit.chunks) {
        const flow = flowsOf(chunk).get(id);
        if (flow) return flow;
      }
    return undefined;
  };
}

/** The option that what was found leads to; undefined when several do. */
function branchesById(visits: readonly VisitFacts[]): (when: readonly Assumption[]) => number | undefined {
  return (when) => {
    const all = visits.flatMap((visit) => visit.chunks.flatMap(branchesOf));
    const leadTo = (wanted: readonly Assumption[]) => {
      const fitting = all.filter(
        ({ assumptions }) =>
          assumptions.length === wanted.length &&
          wanted.every(({ key, values }) => assumptions.some((one) => one.key === key && same(one.values, values))),
      );
      return fitting.length === 1 ? fitting[0]?.statement : undefined;
    };
    return when.length === 0 ? undefined : (leadTo(when) ?? leadTo(when.slice(0, 1)));
  };
}

function same(a: ReadonlySet<string>, b: ReadonlySet<string>): boolean {
  return a.size === b.size && [...a].every((value) => b.has(value));
}

const problemsOf = perChunk((chunk) => {
  const problems: Problem[] = [];
  forEachFlow(chunk.items, (flow) => problems.push(...flow.problems));
  return problems;
});

const flowsOf = perChunk((chunk) => {
  const flows = new Map<FlowId, Flow>();
  forEachFlow(chunk.items, (flow) => {
    flows.set(flow.id, flow);
    if (flow.type === 'decide') for (const { id } of flow.branches) flows.set(id, flow);
  });
  return flows;
});

const branchesOf = perChunk((chunk) => {
  const branches: { assumptions: readonly Assumption[]; statement: number }[] = [];
  forEachFlow(chunk.items, (flow) => {
    if (flow.call) return;
    if (flow.type === 'decide')
      for (const { remembered, statement } of flow.branches)
        branches.push({ assumptions: remembered, statement: statement.id });
    if (flow.type === 'complication') branches.push({ assumptions: [flow.assumption], statement: flow.statement.id });
  });
  return branches;
});

/** Lowers a visit's lines; those before and after the first and last change of an earlier version are taken from it. */
function lowerAgain(
  lowering: Lowering,
  statements: readonly Statement[],
  previous: VisitFacts | undefined,
): readonly Flow[] {
  const old = previous?.statement.body?.items;
  // What a case leaves out depends on what stands before it.
  if (!previous || !old || lowering.found || previous.items.length !== old.length)
    return lowerItems(lowering, statements);
  let prefix = 0;
  while (prefix < old.length && prefix < statements.length && old[prefix] === statements[prefix]) prefix++;
  if (prefix === old.length && prefix === statements.length) return previous.items;
  const most = Math.min(old.length, statements.length) - prefix;
  let suffix = 0;
  while (suffix < most && old[old.length - 1 - suffix] === statements[statements.length - 1 - suffix]) suffix++;
  return previous.items
    .slice(0, prefix)
    .concat(
      lowerItems(lowering, statements.slice(prefix, statements.length - suffix)),
      previous.items.slice(old.length - suffix),
    );
}
