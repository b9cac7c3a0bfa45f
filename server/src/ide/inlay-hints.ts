import { type Body, lastStarting, type Placed, type Statement } from '@curette/grammar';
import { locate } from '../analysis/locate.ts';
import type { Flow } from '../analysis/protocol/flow.ts';
import { type ScheduleEntry, scheduleOf } from '../analysis/protocol/schedule.ts';
import { SAME_TIME } from '../analysis/time/network.ts';
import type { FileId } from '../problems/problem.ts';
import type { Checked } from './checked.ts';
import { plainly } from './markdown.ts';
import { type StepStart, stepStarts } from './step-starts.ts';
import { timeRangeWords, timeWords } from './time-words.ts';

/** Words that the editor shows in a line, beside what is written. */
export interface InlayHint {
  /** behind the head of the line that it speaks of */
  readonly at: number;
  readonly label: string;
  /** the statement that it speaks of, for what is told when somebody asks for more */
  readonly statement: number;
}

/**
 * When the steps in a stretch of a file can begin, counted from the beginning of their visit. Steps that begin the visit have none, nor
 * has what is off the main path, since nothing says when it happens. Only what stands in the stretch is gone through: the editor asks
 * after every keystroke.
 */
export function inlayHints(checked: Checked, id: FileId, start: number, end: number): readonly InlayHint[] {
  const facts = checked.facts(id);
  if (!facts) return [];
  const { text, tree } = facts.file;
  const hints: InlayHint[] = [];
  for (const top of inStretch(tree.body, 0, start, end)) {
    const protocol = facts.protocols.find(({ statement }) => statement.id === top.statement.id);
    if (!protocol || !top.statement.body) continue;
    for (const { statement: item, start: at } of inStretch(top.statement.body, top.start, start, end)) {
      const visit = protocol.visits.find(({ statement }) => statement.id === item.id);
      if (!visit || !item.body) continue;
      const starts = stepStarts(protocol, visit);
      for (const { statement, start: here } of stepsIn(item.body, at, start, end)) {
        const label = labelOf(protocol.flow(statement.id), starts);
        if (label !== undefined)
          hints.push({ at: behindHead(text, here + statement.head.end), label, statement: statement.id });
      }
    }
  }
  return hints.filter((hint) => hint.at >= start && hint.at <= end);
}

/**
 * What is told of a hinted line when somebody asks for more, in markdown; undefined when the line is gone.
 * @param statement as the hint has it
 */
export function hintTooltip(checked: Checked, id: FileId, statement: number): string | undefined {
  const facts = checked.facts(id);
  if (!facts) return undefined;
  const around = new Set<number>();
  for (let at = locate(facts.file.tree, statement); at; at = at.parent) around.add(at.statement.id);
  for (const protocol of facts.protocols)
    for (const visit of protocol.visits) {
      if (!around.has(visit.statement.id)) continue;
      const entry = scheduleOf(protocol, visit).entries.find(({ flow }) => flow.id === statement);
      if (entry) return tooltipWords(entry);
    }
  return undefined;
}

function tooltipWords({ duration, spare, lanes, critical, slack, start }: ScheduleEntry): string {
  const { lo, hi, stated, usual } = duration;
  const usually = usual === undefined ? '' : `, usually ${timeWords(usual)}`;
  const takes = stated && hi > 0 ? [`Takes ${timeRangeWords(lo, hi)}${usually}.`] : [];
  const opens = Number.isFinite(start.hi) ? [] : ['Something before it has no stated length.'];
  const lane = lanes.at(-1);
  const beside =
    lane === undefined
      ? []
      : critical
        ? [`Critical in "${lane}": every minute it takes longer, the work side by side takes longer.`]
        : Number.isFinite(slack)
          ? [`May take ${timeWords(slack, 'down')} longer before the lane beside "${lane}" waits for it.`]
          : [];
  return [...takes, ...opens, ...heldWords(spare), ...beside].map(plainly).join('\n\n');
}

/** How much later than at once it may begin. */
function heldWords(spare: number | undefined): readonly string[] {
  if (spare === undefined) return [];
  if (spare < -SAME_TIME) return ['A limit that spans it can break already: it must not be held.'];
  return spare <= SAME_TIME
    ? ['Must not be held: a limit that spans it would break.']
    : [`May be held ${timeWords(spare, 'down')} before a limit that spans it can break.`];
}

function labelOf(flow: Flow | undefined, starts: StepStart): string | undefined {
  const start = flow && isWork(flow) ? starts(flow.id) : undefined;
  if (!start || start.hi === 0) return undefined;
  if (Number.isFinite(start.hi)) return `begins ${timeRangeWords(start.lo, start.hi)} in`;
  return start.lo > 0 ? `begins from ${timeWords(start.lo, 'down')} in` : undefined;
}

/** What somebody sets about at a certain time: not a note, nor what merely is told. */
function isWork(flow: Flow): boolean {
  switch (flow.type) {
    case 'step':
    case 'call':
    case 'pause':
    case 'wait':
    case 'verify':
    case 'decide':
    case 'together':
    case 'repeat':
      return true;
    case 'plain':
      return flow.duration.hi > 0 && flow.duration.stated;
    case 'complication':
    case 'stop':
      return false;
    default:
      return flow satisfies never;
  }
}

/** The statements of a block that touch a stretch. */
function* inStretch(body: Body, base: number, start: number, end: number): Generator<Placed> {
  for (let i = Math.max(0, lastStarting(body.offsets, start - base)); i < body.items.length; i++) {
    const statement = body.items[i] as Statement;
    const at = base + (body.offsets[i] ?? 0);
    if (at > end) return;
    if (at + statement.length >= start) yield { statement, start: at };
  }
}

/** The same, with what stands inside of them; complications are left out. */
function* stepsIn(body: Body, base: number, start: number, end: number): Generator<Placed> {
  for (const placed of inStretch(body, base, start, end)) {
    yield placed;
    if (placed.statement.body && placed.statement.type !== 'complication')
      yield* stepsIn(placed.statement.body, placed.start, start, end);
  }
}

/** Where a line can take a hint: behind the brace that ends it, if one does. */
function behindHead(text: string, headEnd: number): number {
  const brace = /^[ \t]*\{(?=[ \t]*(?:\/\/|\r?\n|$))/.exec(text.slice(headEnd, headEnd + 200));
  return headEnd + (brace?.[0].length ?? 0);
}
