import { plain } from '../../problems/words.ts';
import { descendsFrom, fitsKind } from '../kinds/subkind.ts';
import type { Kind, PatternModel, Rule, RuleForm, TimeLimit } from '../model.ts';
import { type Module, visibleNames } from '../names/module.ts';
import { entryNamed, kindNamed } from '../names/resolve.ts';
import type { Unsaid } from '../rules/evaluate.ts';
import type { RuleEvent } from '../rules/events.ts';
import { findingsAskedBy } from './findings-asked.ts';
import { patternWords, timesWords } from './pattern-words.ts';
import { type Instance, type Match, type Matching, matchOf, type Portion, portionsFound } from './portion.ts';
import { limitAt } from './rule-limit.ts';

/**
 * Rules about order, number and pauses, each followed as one more track beside those of things: what happened so far is its state. So
 * a rule is followed through decisions, lanes and repetitions in the same way as a graft's state is. So is each finding that a rule's
 * condition asks for: its state is what was found last.
 */
export interface Monitor {
  readonly index: number;
  /** undefined: it follows a finding */
  readonly rule: Rule | undefined;
  /** the finding whose value it follows */
  readonly finding: string | undefined;
  readonly scope: 'visit' | 'protocol';
  readonly initial: string;
  /** whether it counts, so that what is done in lanes side by side adds up */
  readonly addsUp: boolean;
  /** states in which the visit or the protocol may end; undefined: any */
  readonly end: ((state: string) => boolean) | undefined;
  /** what is missing at the end, in words */
  readonly endWords: string;
  /** whether what it asks for at the end is owed only because of something that was done */
  readonly owed: boolean;
  /** whether what is missing is told at the step because of which it is owed */
  readonly toldWhereOwed: boolean;
  /** a line that would give what is missing */
  readonly line: string | undefined;
  readonly marks: (event: RuleEvent) => readonly Mark[];
}

/** The state of a rule that asks for something only once something else was done. */
const OWES_NOTHING = 'none';
/** The state of a rule about number before the first time. */
const NONE_YET = '0';

/** The state of a rule about time once the first of its two steps was done. */
export const BEGUN = 'begun';

/** What an event means to a monitor. */
export interface Mark {
  readonly index: number;
  readonly monitor: Monitor;
  /** on which paths it means this; none: on all of them */
  readonly portions: readonly Portion[];
  /** whether the event may come in this state; undefined: it may in any */
  readonly may: ((state: string) => boolean) | undefined;
  readonly mayWords: string;
  /** the state after it; undefined: as before */
  readonly next: ((state: string) => string) | undefined;
  /** the time since it was begun that is asked for here */
  readonly limit: TimeLimit | undefined;
  /** what would have to be stated to tell that time */
  readonly untold: Unsaid | undefined;
}

/** The monitors of the rules that apply to a protocol. Their indices are 0 and up. */
export function monitorsOf(module: Module, rules: readonly Rule[], matching: Matching): readonly Monitor[] {
  const monitors: Monitor[] = [];
  for (const rule of rules)
    for (const form of rule.forms)
      for (const make of makersOf(matching, rule, form)) monitors.push(make(monitors.length));
  for (const finding of findingsAskedBy(module, rules)) monitors.push(followFinding(monitors.length, finding));
  return monitors;
}

/** What all monitors make of an event. */
export function marksOf(monitors: readonly Monitor[], event: RuleEvent): Mark[] {
  const marks: Mark[] = [];
  for (const monitor of monitors) marks.push(...monitor.marks(event));
  return marks;
}

type Maker = (index: number) => Monitor;

function makersOf(matching: Matching, rule: Rule, form: RuleForm): readonly Maker[] {
  const make = (how: Following, see: See): Maker => {
    return (index) => follow(index, rule, how, see);
  };
  const on = (pattern: PatternModel, event: RuleEvent, one?: Instance) => matchOf(matching, rule, pattern, event, one);
  switch (form.type) {
    case 'pause': {
      const what = patternWords(form.pattern);
      const line = `pause ${form.pause}`;
      const isPause = (event: RuleEvent) => event.type === 'pause' && event.name === form.pause;
      return form.relation === 'before'
        ? [
            make({ initial: 'not yet', line }, (event, mark) => {
              if (isPause(event)) return [mark(EVERYWHERE, { next: () => 'done' })];
              const asks = on(form.pattern, event);
              const words = `there is no "${plain(form.pause)}" before "${what}"`;
              return asks ? [mark(asks, { may: (s) => s === 'done', mayWords: words })] : [];
            }),
          ]
        : [
            make(
              {
                initial: OWES_NOTHING,
                line,
                end: (s) => s !== 'owed',
                endWords: `there is no "${plain(form.pause)}" after "${what}"`,
              },
              (event, mark) => {
                if (isPause(event)) return [mark(EVERYWHERE, { next: () => 'done' })];
                const owes = on(form.pattern, event);
                return owes ? [mark(owes, { next: () => 'owed' })] : [];
              },
            ),
          ];
    }
    case 'count': {
      const { least, most, pattern, scope } = form;
      const what = patternWords(pattern);
      const words = timesWords(least, most);
      const limited = Number.isFinite(most);
      const top = limited ? most + 1 : least;
      return [
        make(
          {
            initial: NONE_YET,
            scope,
            end: least > 0 ? (s) => Number(s) >= least : undefined,
            endWords: `"${what}" does not come ${words}`,
          },
          (event, mark) => {
            const counts = on(pattern, event);
            if (!counts) return [];
            return [
              mark(counts, {
                may: limited ? (s) => Number(s) < most : undefined,
                mayWords:
                  most === 0
                    ? `"${what}" must never be done`
                    : `"${what}" comes here once too often: it may come ${words}`,
                next: (s) => String(Math.min(top, Number(s) + 1)),
              }),
            ];
          },
        ),
      ];
    }
    case 'between': {
      const { first, second, limit } = form;
      return instancesOf(matching, form).map((one) =>
        make({ initial: 'not yet', scope: 'protocol' }, (event, mark) => {
          const asks = on(second, event, one);
          const begins = on(first, event, one);
          return [
            ...(asks ? [mark(asks, limitAt(limit, asks.environment))] : []),
            ...(begins ? [mark(begins, { next: () => BEGUN })] : []),
          ];
        }),
      );
    }
    case 'order':
      return instancesOf(matching, form).flatMap((one) => orderOf(form, one, on, make));
    case 'whenever':
    case 'every':
    case 'total':
    case 'not judged':
      return [];
    default:
      return form satisfies never;
  }
}

function orderOf(
  { first, second, relation, scope }: Extract<RuleForm, { type: 'order' }>,
  one: Instance | undefined,
  on: (pattern: PatternModel, event: RuleEvent, one?: Instance) => Match | undefined,
  make: (how: Following, see: See) => Maker,
): readonly Maker[] {
  const words = (pattern: PatternModel) => patternWords(pattern, one);
  switch (relation) {
    case 'before':
    case 'only after': {
      if (!second) return [];
      const [needed, needing] = relation === 'before' ? [first, second] : [second, first];
      return [
        make({ initial: 'not yet', scope }, (event, mark) => {
          // One step may be both: it is judged by what came before it.
          const asks = on(needing, event, one);
          const gives = on(needed, event, one);
          const mayWords = `there is no "${words(needed)}" before "${words(needing)}"`;
          return [
            ...(asks ? [mark(asks, { may: (s) => s === 'done', mayWords })] : []),
            ...(gives ? [mark(gives, { next: () => 'done' })] : []),
          ];
        }),
      ];
    }
    case 'after':
      if (!second) return [];
      return [
        make(
          {
            initial: OWES_NOTHING,
            scope,
            end: (s) => s !== 'owed',
            endWords: `there is no "${words(first)}" after "${words(second)}"`,
            toldWhereOwed: true,
          },
          (event, mark) => {
            const owes = on(second, event, one);
            const gives = on(first, event, one);
            return [
              ...(owes ? [mark(owes, { next: () => 'owed' })] : []),
              ...(gives ? [mark(gives, { next: () => 'done' })] : []),
            ];
          },
        ),
      ];
    case 'first':
      return [
        make({ initial: 'fresh', scope }, (event, mark) => {
          const match = on(first, event);
          const mayWords = `something comes before "${words(first)}"`;
          return [
            ...(match ? [mark(match, { may: (s) => s === 'fresh', mayWords })] : []),
            ...(isWork(event) && (!match || match.portions.length > 0)
              ? [mark(EVERYWHERE, { next: () => 'begun' })]
              : []),
          ];
        }),
      ];
    case 'last':
      return [
        make({ initial: 'open', scope }, (event, mark) => {
          const match = on(first, event);
          const mayWords = `this comes after "${words(first)}", which comes last`;
          return [
            ...(isWork(event) && !match ? [mark(EVERYWHERE, { may: (s) => s === 'open', mayWords })] : []),
            ...(match ? [mark(match, { next: () => 'closed' })] : []),
          ];
        }),
      ];
    default:
      return relation satisfies never;
  }
}

function isWork(event: RuleEvent): boolean {
  return event.type === 'step';
}

interface Following {
  readonly initial: string;
  readonly scope?: Monitor['scope'];
  readonly end?: Monitor['end'];
  readonly endWords?: string;
  readonly toldWhereOwed?: boolean;
  readonly line?: string;
}

type MakeMark = (
  where: Pick<Match, 'portions'>,
  means: Partial<Pick<Mark, 'may' | 'mayWords' | 'next' | 'limit' | 'untold'>>,
) => Mark;
type See = (event: RuleEvent, mark: MakeMark) => readonly Mark[];

const EVERYWHERE: Pick<Match, 'portions'> = { portions: [] };

function follow(index: number, rule: Rule | undefined, how: Following, see: See, finding?: string): Monitor {
  const { initial, scope = 'visit', end, endWords = '', toldWhereOwed = false, line } = how;
  const monitor: Monitor = {
    index,
    rule,
    finding,
    line,
    scope,
    initial,
    end,
    endWords,
    toldWhereOwed,
    owed: initial === OWES_NOTHING,
    addsUp: initial === NONE_YET,
    marks: (event) => see(event, ({ portions }, means) => ({ ...NOTHING, ...means, index, monitor, portions })),
  };
  return monitor;
}

const NOTHING = { may: undefined, mayWords: '', next: undefined, limit: undefined, untold: undefined };

function followFinding(index: number, finding: string): Monitor {
  return follow(
    index,
    undefined,
    { initial: '' },
    (event, mark) => {
      if (event.type !== 'finding' || event.finding.name !== finding) return [];
      return [mark({ portions: portionsFound(event) }, { next: () => event.value })];
    },
    finding,
  );
}

/** Whether a pattern itself gives a name, and not only a kind. */
function names(pattern: PatternModel, name: string): boolean {
  return pattern.node.slots.some((slot) => slot.name?.text === name);
}

/** The thing that both patterns of a rule give the same name: they speak of one and the same. */
export function sharedThing({
  first,
  second,
}: Extract<RuleForm, { type: 'between' | 'order' }>): { readonly name: string; readonly kind: Kind } | undefined {
  for (const { name, accepts } of first.slots) {
    const other = second?.slots.find((slot) => slot.name === name);
    if (other?.accepts.type !== 'kind' || accepts.type !== 'kind' || !second) continue;
    if (!names(first, name) || !names(second, name)) continue;
    // What is of the narrower kind is of both.
    return { name, kind: fitsKind(other.accepts.kind, accepts.kind) ? other.accepts.kind : accepts.kind };
  }
  return undefined;
}

/** What a rule about one and the same thing is followed for: each listed thing that it may be, and each place that needs no listing. */
function instancesOf(
  { module, things }: Matching,
  form: Extract<RuleForm, { type: 'between' | 'order' }>,
): readonly (Instance | undefined)[] {
  const same = sharedThing(form);
  if (!same) return [undefined];
  const instances: Instance[] = [];
  const add = (thing: string, label: string) => instances.push({ name: same.name, thing, label });
  for (const thing of things.byName.values()) if (fitsKind(thing.kind, same.kind)) add(thing.name, thing.label);
  for (const group of ['entries', 'kinds'] as const)
    for (const name of visibleNames(module, group)) {
      if (things.byName.has(name)) continue;
      const entry = group === 'entries' ? entryNamed(module, name) : undefined;
      const kind = entry?.kind ?? kindNamed(module, name);
      if (kind && descendsFrom(kind, 'place') && fitsKind(kind, same.kind)) add(name, entry?.label ?? kind.label);
    }
  return instances;
}
