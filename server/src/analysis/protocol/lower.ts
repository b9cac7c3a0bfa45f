import type { Statement, StatementOf, VerifyStatement } from '@curette/grammar';
import { emptyBlock } from '../../problems/empty_block.ts';
import { notJudged } from '../../problems/not_judged.ts';
import { type Place, type Problem, problemAt, type Report } from '../../problems/problem.ts';
import { procedureInItself } from '../../problems/procedure_in_itself.ts';
import { repeatCount } from '../../problems/repeat_count.ts';
import { repeatWithoutLimit } from '../../problems/repeat_without_limit.ts';
import { verifyWithoutOtherwise } from '../../problems/verify_without_otherwise.ts';
import { checkSource } from '../kinds/declarations.ts';
import { notStated, readDuration } from '../kinds/duration.ts';
import { type Duration, type Procedure, placeOf, type Rule } from '../model.ts';
import { checkRepeatedNames } from '../names/repeated.ts';
import { pauseNamed } from '../names/resolve.ts';
import type { RuleEvent } from '../rules/events.ts';
import { checkPause } from '../rules/pause.ts';
import { lowerDecide } from './decide.ts';
import { type ComplicationFlow, endsEveryPath, type Flow, type FlowId } from './flow.ts';
import { checkMeasurement } from './measurement.ts';
import { type Monitor, marksOf } from './monitors.ts';
import { followPath, type NameScope, procedureScope } from './name-scope.ts';
import { emptyPlan, planEvent, planStep, type StepPlan } from './plan.ts';
import { ANY_STATE } from './possibility.ts';
import { checkTeam, resolveStep, thingOrReport } from './step.ts';
import type { Thing } from './things.ts';
import { checkTimeTaken } from './time-taken.ts';
import { trackIndex } from './track.ts';
import { lowerWait } from './wait.ts';

/** Procedures that call one another do not nest deeper than this at the chair. */
const DEEPEST_CALL = 16;

/** Nor does one call run to more lines than this, those of the procedures it calls in turn included. */
const MOST_CALLED = 5000;

/** Nothing at the chair is done oftener; a greater number is a slip. */
const MOST_ROUNDS = 1000;

export interface Lowering {
  readonly scope: NameScope;
  readonly rules: readonly Rule[];
  readonly monitors: readonly Monitor[];
  /** what a statement was lowered to before, valid while things, rules and library are the same */
  readonly known: WeakMap<Statement, Flow>;
  /** ids of the calls that lead here, ending in `/`; empty in the protocol itself */
  readonly prefix: string;
  readonly call: Place | undefined;
  readonly calling: readonly Procedure[];
  /** what a case says is found: options that this leaves out fall away, and so does what no path then reaches */
  readonly found: ReadonlyMap<string, string> | undefined;
  /** lines lowered so far for the call in the protocol that this stands in */
  readonly called?: { lines: number };
}

/** Lowers the statements of a block, in order. Statements that are no event (unreadable ones) are left out. */
export function lowerItems(context: Lowering, items: readonly Statement[]): Flow[] {
  const flows: Flow[] = [];
  for (const item of items) {
    const known = context.known.get(item);
    if (!known && context.called && ++context.called.lines > MOST_CALLED) break;
    const flow = known ?? lowerAnew(context, item);
    if (!flow) continue;
    flows.push(flow);
    if (context.found && endsEveryPath(flow)) break;
  }
  return flows;
}

function lowerAnew(context: Lowering, item: Statement): Flow | undefined {
  const lowered = lower(context, item);
  if (!lowered) return undefined;
  const flow = context.call ? { ...lowered, problems: atCall(lowered.problems, context.call) } : lowered;
  context.known.set(item, flow);
  return flow;
}

/** What is wrong with a line of a procedure only because of what it is used with; the rest is told where it is declared. */
export const HANGS_ON_THINGS: ReadonlySet<string> = new Set([
  'undecided',
  'figures_not_applied',
  'figure_not_stated',
  'unmet_need',
  'rule_broken',
  'outlasts_state',
  'check_outside_stated',
]);

/** Problems of a procedure's line that are told where it is called. */
function atCall(problems: readonly Problem[], call: Place): Problem[] {
  return problems.flatMap((problem) => {
    if (problem.place === call) return [problem];
    if (!HANGS_ON_THINGS.has(problem.code)) return [];
    const inside = { place: problem.place, message: 'the step inside the procedure' };
    return [{ ...problem, place: call, related: [...problem.related, inside], mends: [] }];
  });
}

export function flowId(context: Lowering, statement: Statement): FlowId {
  return context.prefix === '' ? statement.id : `${context.prefix}${statement.id}`;
}

const instant: Duration = { lo: 0, hi: 0, stated: true };

function lower(context: Lowering, item: Statement): Flow | undefined {
  const { module } = context.scope;
  const problems: Problem[] = [];
  const report: Report = (problem) => problems.push(problem);
  const base = {
    id: flowId(context, item),
    statement: item,
    file: module.id,
    call: context.call,
    problems,
  };
  if ('by' in item && item.type !== 'lane' && Array.isArray(item.by) && item.type !== 'step')
    checkTeam(context.scope, item, item.by, report);
  if ('source' in item && item.source && item.type !== 'step') checkSource(module, item.id, item.source, report);
  const own = (whenNotStated: Duration): Duration =>
    'takes' in item && typeof item.takes === 'object' && item.takes?.duration
      ? readDuration(module, item, item.takes, report)
      : whenNotStated;
  const by = 'by' in item && Array.isArray(item.by) ? item.by.map((role) => role.text) : [];

  switch (item.type) {
    case 'step':
      return lowerStep(context, item);
    case 'pause step': {
      const pause =
        item.name && checkPause(module, item, item.name, report) ? pauseNamed(module, item.name.text) : undefined;
      const name = item.name?.text ?? '';
      const added = (item.body?.items ?? []).flatMap((line) =>
        line.type === 'item' && line.text ? [line.text.value] : [],
      );
      const duration = own(pause?.takes ?? notStated);
      if (pause && item.takes) checkTimeTaken(module, item, item.takes, duration, pause, report);
      return {
        ...base,
        type: 'pause',
        name,
        pause,
        items: [...(pause?.items ?? []), ...added],
        duration,
        by: by.length > 0 ? by : (pause?.by ?? []),
        plan: planned(context, item, { type: 'pause', name }, report),
        pauseStatement: item,
      };
    }
    case 'wait':
      return { ...base, type: 'wait', by: [], ...lowerWait(context.scope, context.monitors.length, item, report) };
    case 'verify': {
      if (!item.otherwise)
        report(
          problemAt(verifyWithoutOtherwise, placeOf(module.id, item, item.head), {
            what: verifyLabel(item),
            file: module.id,
            statement: item.id,
            end: item.head.end,
          }),
        );
      checkMeasurement(context.scope, item, report);
      return {
        ...base,
        type: 'verify',
        label: verifyLabel(item),
        plan: planned(
          context,
          item,
          {
            type: 'verify',
            what: item.what && !('value' in item.what) ? item.what.text : '',
            ...aboutOf(context, item),
          },
          report,
        ),
        otherwise: item.body && lowerItems(context, item.body.items),
        duration: own(instant),
        by,
      };
    }
    case 'decide':
      return { ...base, ...lowerDecide(context, item, report), type: 'decide', duration: own(instant), by };
    case 'together': {
      const lanes = (item.body?.items ?? []).flatMap((lane) => (lane.type === 'lane' ? [lane] : []));
      if (lanes.length === 0)
        report(problemAt(emptyBlock, placeOf(module.id, item, item.head), { what: 'together', wants: 'lane' }));
      for (const lane of lanes) checkTeam(context.scope, lane, lane.by, report);
      const named = lanes.flatMap((lane) => (lane.name ? [{ name: lane.name, statement: lane }] : []));
      checkRepeatedNames(module.id, named, report);
      return {
        ...base,
        type: 'together',
        duration: instant,
        by: [],
        lanes: lanes.map((lane) => ({
          statement: lane,
          label: lane.label?.value ?? lane.name?.text.replaceAll('_', ' ') ?? 'lane',
          by: lane.by.map((role) => role.text),
          items: lowerItems(context, lane.body?.items ?? []),
        })),
      };
    }
    case 'repeat': {
      if (item.atMost === undefined)
        report(
          problemAt(repeatWithoutLimit, placeOf(module.id, item, item.head), {
            file: module.id,
            statement: item.id,
            end: item.head.end,
          }),
        );
      const times = item.atMost;
      const senseless = times !== undefined && !(Number.isInteger(times) && times >= 1 && times <= MOST_ROUNDS);
      if (senseless) report(problemAt(repeatCount, placeOf(module.id, item, item.head), { times }));
      const items = lowerItems(context, item.body?.items ?? []);
      if (items.length === 0)
        report(problemAt(emptyBlock, placeOf(module.id, item, item.head), { what: 'repeat', wants: 'step' }));
      return {
        ...base,
        type: 'repeat',
        until: item.until?.type === 'text' ? item.until.value : undefined,
        atMost: senseless ? undefined : item.atMost,
        items,
        duration: instant,
        by: [],
      };
    }
    case 'complication':
      return lowerComplication(context, item, base);
    case 'stop':
      return {
        ...base,
        type: 'stop',
        label: item.text?.value ?? 'stop',
        plan: planned(context, item, { type: 'stop' }, report),
        duration: instant,
        by: [],
      };
    case 'record':
      thingOrReport(context.scope, item, item.of, report);
      return {
        ...base,
        type: 'plain',
        plan: planned(
          context,
          item,
          { type: 'record', what: item.what?.text ?? '', ...aboutOf(context, item) },
          report,
        ),
        duration: own(instant),
        by,
      };
    case 'instruct':
    case 'note':
      return { ...base, type: 'plain', plan: emptyPlan, duration: own(instant), by };
    default:
      return undefined;
  }
}

function lowerStep(context: Lowering, item: StatementOf<'step'>): Flow {
  const { scope } = context;
  const step = resolveStep(scope, item);
  const base = {
    id: flowId(context, item),
    statement: item,
    file: scope.module.id,
    call: context.call,
    duration: step.duration,
    by: step.by,
    verb: item.verb.text,
    step,
  };
  if (step.action?.type === 'procedure') return lowerCall(context, item, step.action, base);
  const marks = marksOf(context.monitors, { type: 'step', step });
  if (!step.action) {
    // What an unknown action does to its things is not known: from here on they may be in any state.
    const sets = step.named.flatMap((thing) =>
      thing.kind.tracks.map((track) => ({
        thing,
        index: trackIndex(thing, track, context.monitors.length),
        track,
        state: ANY_STATE,
      })),
    );
    return { ...base, type: 'step', plan: { ...emptyPlan, marks, sets }, problems: step.problems };
  }
  const planned = planStep(scope, item, step.action, step, context.rules, context.monitors.length, marks);
  // Of a step whose things or measures are wrong, what cannot be told from them is not asked as well.
  const wrong = step.problems.some((problem) => problem.severity === 'error');
  const further = planned.problems.filter((problem) => !wrong || problem.code !== 'undecided');
  return { ...base, type: 'step', plan: planned.plan, problems: [...step.problems, ...further] };
}

function lowerCall(
  context: Lowering,
  item: StatementOf<'step'>,
  procedure: Procedure,
  base: Omit<Extract<Flow, { type: 'call' }>, 'type' | 'procedure' | 'items' | 'problems'>,
): Flow {
  const { scope } = context;
  const { step } = base;
  const call = context.call ?? placeOf(scope.module.id, item, item.verb);
  const instantly = { ...base, duration: item.takes ? base.duration : instant };
  if (context.calling.includes(procedure) || context.calling.length >= DEEPEST_CALL) {
    const problem = problemAt(procedureInItself, call, { verb: procedure.verb });
    return { ...instantly, type: 'call', procedure, items: [], problems: [...step.problems, problem] };
  }
  const bound = new Map<string, readonly Thing[]>();
  for (const [name, filling] of step.fillings)
    if (filling.type === 'things')
      bound.set(
        name,
        filling.things.map(({ thing }) => thing),
      );
  const module = scope.module.module(procedure.file) ?? scope.module;
  const called = context.called ?? { lines: 0 };
  const items = lowerItems(
    {
      ...context,
      scope: procedureScope(module, scope.things, bound),
      known: new WeakMap(),
      prefix: `${base.id}/`,
      call,
      calling: [...context.calling, procedure],
      called,
    },
    procedure.statement.body?.items ?? [],
  );
  const problems = [...step.problems];
  if (!context.called && called.lines > MOST_CALLED)
    problems.push(
      problemAt(notJudged, call, { what: `what comes after the first ${MOST_CALLED} lines of this procedure` }),
    );
  return { ...instantly, type: 'call', procedure, items, problems };
}

function lowerComplication(
  context: Lowering,
  item: StatementOf<'complication'>,
  base: Omit<ComplicationFlow, 'type' | 'label' | 'items' | 'assumption' | 'duration' | 'by'>,
): Flow {
  const label = item.label?.value ?? 'complication';
  return {
    ...base,
    type: 'complication',
    label,
    assumption: {
      key: `#${base.id}`,
      values: new Set(['yes']),
      of: 2,
      say: (values) => `"${label}" ${values.has('yes') ? 'happens' : 'does not happen'}`,
    },
    items: lowerItems(context, item.body?.items ?? []),
    duration: instant,
    by: [],
  };
}

/** What rules ask of an event, and make of it. */
export function planned(context: Lowering, item: Statement, event: RuleEvent, report: Report): StepPlan {
  const marks = marksOf(context.monitors, event);
  const { plan, problems } = planEvent(context.scope, item, event, context.rules, marks);
  for (const problem of problems) report(problem);
  return plan;
}

/** The thing that a check or a record is about, and where it is named. */
function aboutOf(context: Lowering, item: StatementOf<'verify' | 'record'>) {
  const followed = item.of && followPath(context.scope, item.of);
  return { thing: followed?.ok ? followed.thing : undefined, span: item.of ?? item.head };
}

/** What is looked at or measured, in words. */
export function verifyLabel(item: VerifyStatement): string {
  const { what: named } = item;
  const what = named === undefined ? 'this' : 'value' in named ? named.value : named.text.replaceAll('_', ' ');
  return item.of ? `${what} of ${item.of.names.map((name) => name.text.replaceAll('_', ' ')).join(' ')}` : what;
}
