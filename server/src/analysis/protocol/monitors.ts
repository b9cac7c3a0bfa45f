import { article, plain } from '../../problems/words.ts';
import { fitsKind } from '../kinds/subkind.ts';
import type { Kind, PatternModel, Rule, RuleForm, TimeLimit } from '../model.ts';
import { bindings } from '../rules/pattern.ts';
import type { Filling, ResolvedStep } from './step.ts';
import type { Thing } from './things.ts';

/**
 * Rules about order, number and pauses, each followed as one more track beside those of things: what happened so far is its state. So
 * a rule is followed through decisions, lanes and repetitions in the same way as a graft's state is.
 */
export interface Monitor {
  readonly index: number;
  readonly rule: Rule;
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
  /** a line that would give what is missing */
  readonly line: string | undefined;
  readonly mark: (event: MarkedEvent) => Mark | undefined;
  /** the time it asks for since what it was marked by last; undefined for a rule about something else */
  readonly time: TimeLimit | undefined;
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
  /** whether the event may come in this state; undefined: it may in any */
  readonly may: ((state: string) => boolean) | undefined;
  readonly mayWords: string;
  /** the state after it; undefined: as before */
  readonly next: ((state: string) => string) | undefined;
  /** whether the time since is asked for here, where there is any since */
  readonly asksTime: boolean;
}

export type MarkedEvent =
  | { readonly type: 'step'; readonly step: ResolvedStep }
  | { readonly type: 'pause'; readonly name: string };

/**
 * The monitors of the rules that apply to a protocol. Their indices are 0 and up.
 *
 * @param things that are listed: a rule about the time between two steps on the same thing has a monitor for each that it may be
 */
export function monitorsOf(rules: readonly Rule[], things: readonly Thing[]): readonly Monitor[] {
  const monitors: Monitor[] = [];
  for (const rule of rules)
    for (const form of rule.forms) {
      const index = monitors.length;
      const base = { index, rule };
      if (form.type === 'pause') {
        const pause = plain(form.pause);
        const what = patternWords(form.pattern);
        if (form.relation === 'before')
          monitors.push(
            follow({ ...base, line: `pause ${form.pause}` }, 'visit', 'not yet', undefined, '', (event, mark) => {
              if (isPause(event, form.pause)) return mark(undefined, '', () => 'done');
              if (matches(form.pattern, event))
                return mark((s) => s === 'done', `there is no "${pause}" before "${what}"`, undefined);
              return undefined;
            }),
          );
        else
          monitors.push(
            follow(
              { ...base, line: `pause ${form.pause}` },
              'visit',
              OWES_NOTHING,
              (s) => s !== 'owed',
              `there is no "${pause}" after "${what}"`,
              (event, mark) => {
                if (isPause(event, form.pause)) return mark(undefined, '', () => 'done');
                if (matches(form.pattern, event)) return mark(undefined, '', () => 'owed');
                return undefined;
              },
            ),
          );
      } else if (form.type === 'count') {
        const what = patternWords(form.pattern);
        const words = timesWords(form.least, form.most);
        const top = Number.isFinite(form.most) ? form.most + 1 : form.least;
        monitors.push(
          follow(
            base,
            form.scope,
            NONE_YET,
            form.least > 0 ? (s) => Number(s) >= form.least : undefined,
            `"${what}" does not come ${words}`,
            (event, mark) =>
              matches(form.pattern, event)
                ? mark(
                    Number.isFinite(form.most) ? (s) => Number(s) < form.most : undefined,
                    form.most === 0
                      ? `"${what}" must never be done`
                      : `"${what}" comes here once too often: it may come ${words}`,
                    (s) => String(Math.min(top, Number(s) + 1)),
                  )
                : undefined,
          ),
        );
      } else if (form.type === 'between') {
        const { first, second, limit } = form;
        const same = sharedThing(form);
        for (const thing of same ? things.filter((other) => fitsKind(other.kind, same.kind)) : [undefined]) {
          const fits = (pattern: PatternModel, event: MarkedEvent) =>
            matches(pattern, event, same && thing && { name: same.name, thing });
          const index = monitors.length;
          monitors.push(
            follow({ index, rule, time: limit }, 'protocol', 'not yet', undefined, '', (event, mark) => {
              const begins = fits(first, event);
              const asks = fits(second, event);
              if (!begins && !asks) return undefined;
              return { ...mark(undefined, '', begins ? () => BEGUN : undefined), asksTime: asks };
            }),
          );
        }
      } else if (form.type === 'order') {
        const first = patternWords(form.first);
        const { second } = form;
        switch (form.relation) {
          case 'before':
          case 'only after': {
            if (!second) break;
            const [needed, needing] = form.relation === 'before' ? [form.first, second] : [second, form.first];
            monitors.push(
              follow(base, form.scope, 'not yet', undefined, '', (event, mark) => {
                // One step may be both: it is judged by what came before it.
                const asks = matches(needing, event);
                const gives = matches(needed, event);
                if (!asks && !gives) return undefined;
                return mark(
                  asks ? (s) => s === 'done' : undefined,
                  `there is no "${patternWords(needed)}" before "${patternWords(needing)}"`,
                  gives ? () => 'done' : undefined,
                );
              }),
            );
            break;
          }
          case 'after':
            if (!second) break;
            monitors.push(
              follow(
                base,
                form.scope,
                OWES_NOTHING,
                (s) => s !== 'owed',
                `there is no "${first}" after "${patternWords(second)}"`,
                (event, mark) => {
                  if (matches(form.first, event)) return mark(undefined, '', () => 'done');
                  if (matches(second, event)) return mark(undefined, '', () => 'owed');
                  return undefined;
                },
              ),
            );
            break;
          case 'first':
            monitors.push(
              follow(base, form.scope, 'fresh', undefined, '', (event, mark) =>
                matches(form.first, event)
                  ? mark((s) => s === 'fresh', `something comes before "${first}"`, undefined)
                  : event.type === 'step'
                    ? mark(undefined, '', () => 'begun')
                    : undefined,
              ),
            );
            break;
          case 'last':
            monitors.push(
              follow(base, form.scope, 'open', undefined, '', (event, mark) =>
                matches(form.first, event)
                  ? mark(undefined, '', () => 'closed')
                  : event.type === 'step'
                    ? mark((s) => s === 'open', `this comes after "${first}", which comes last`, undefined)
                    : undefined,
              ),
            );
            break;
          default:
            break;
        }
      }
    }
  return monitors;
}

type MakeMark = (may: Mark['may'], mayWords: string, next: Mark['next']) => Mark;

function follow(
  base: { readonly index: number; readonly rule: Rule; readonly line?: string; readonly time?: TimeLimit },
  scope: 'visit' | 'protocol',
  initial: string,
  end: Monitor['end'],
  endWords: string,
  see: (event: MarkedEvent, mark: MakeMark) => Mark | undefined,
): Monitor {
  const monitor: Monitor = {
    index: base.index,
    rule: base.rule,
    line: base.line,
    scope,
    initial,
    end,
    endWords,
    owed: initial === OWES_NOTHING,
    addsUp: initial === NONE_YET,
    mark: (event) =>
      see(event, (may, mayWords, next) => ({ index: base.index, monitor, may, mayWords, next, asksTime: false })),
    time: base.time,
  };
  return monitor;
}

function isPause(event: MarkedEvent, name: string): boolean {
  return event.type === 'pause' && event.name === name;
}

function matches(
  pattern: PatternModel,
  event: MarkedEvent,
  wanted?: { readonly name: string; readonly thing: Thing } | undefined,
): boolean {
  if (pattern.pause || event.type === 'pause') return pattern.pause && isPause(event, pattern.verb);
  const { action } = event.step;
  if (action === undefined) return false;
  const ways = bindings(pattern, action, event.step);
  return wanted ? ways.some((way) => standsFor(way.get(wanted.name), wanted.thing)) : ways.length > 0;
}

function standsFor(filling: Filling | undefined, thing: Thing): boolean {
  return filling?.type === 'things' && filling.things.some((one) => one.thing === thing);
}

/** Whether a pattern itself gives a name, and not only a kind. */
function names(pattern: PatternModel, name: string): boolean {
  return pattern.node.slots.some((slot) => slot.name?.text === name);
}

/** The thing that both patterns of a rule about time give the same name: they speak of one and the same. */
export function sharedThing({
  first,
  second,
}: Extract<RuleForm, { type: 'between' }>): { readonly name: string; readonly kind: Kind } | undefined {
  for (const { name, accepts } of first.slots) {
    const other = second.slots.find((slot) => slot.name === name);
    if (other?.accepts.type === 'kind' && accepts.type === 'kind' && names(first, name) && names(second, name))
      return { name, kind: accepts.kind };
  }
  return undefined;
}

/** A pattern as a person says it: "lay a holding membrane on a place". */
export function patternWords(pattern: PatternModel): string {
  if (pattern.pause) return plain(pattern.verb);
  const slots = pattern.slots.map(
    (slot) => `${slot.preposition ? `${slot.preposition} ` : ''}${article(plain(slot.kindWord))}`,
  );
  return [plain(pattern.verb), ...slots].join(' ');
}

/** "exactly once", "at most 2 times", "never" */
export function timesWords(least: number, most: number): string {
  if (most === 0) return 'never';
  if (least === most) return `exactly ${least === 1 ? 'once' : `${least} times`}`;
  if (least === 0) return `at most ${most === 1 ? 'once' : `${most} times`}`;
  return `at least ${least === 1 ? 'once' : `${least} times`}`;
}
