import type { Statement } from '@curette/grammar';
import type { ChecklistItem } from '@curette/shared';
import { formatQuantity } from '@curette/shared';
import type { Duration } from '../analysis/model.ts';
import type { Module } from '../analysis/names/module.ts';
import { entryNamed } from '../analysis/names/resolve.ts';
import type { Flow, StepFlow } from '../analysis/protocol/flow.ts';
import { timeQuantity } from '../analysis/protocol/flow-words.ts';
import type { ProtocolContext } from '../analysis/protocol/protocol.ts';
import type { Citations } from './citations.ts';
import type { VisitDuties } from './due.ts';
import { type ClockNeeds, clocksOf, limitsOf } from './limits.ts';
import type { Lines } from './lines.ts';
import { plain, sentence } from './text.ts';
import { durationWords, measureWords, stepWords, thingWords } from './words.ts';

/** What writing out a visit's events takes. */
export interface Writing {
  readonly context: ProtocolContext;
  readonly citations: Citations;
  readonly clocks: ClockNeeds;
  readonly duties: VisitDuties;
  readonly lines: Lines;
}

/** The events of a visit, in order, as a team reads them. */
export function checklistItems(writing: Writing, items: readonly Flow[]): ChecklistItem[] {
  return items.flatMap((flow) => checklistItem(writing, flow) ?? []);
}

/** A step as it is said in one line. */
export function sayStep(module: Module, flow: StepFlow | Extract<Flow, { type: 'call' }>): string {
  if (flow.statement.type !== 'step') return plain(flow.verb);
  return stepWords(module.module(flow.file) ?? module, flow.statement, flow.step).text;
}

function checklistItem(writing: Writing, flow: Flow): ChecklistItem | undefined {
  const { context, citations, duties } = writing;
  const module = context.module.module(flow.file) ?? context.module;
  const said = saidBy(writing, module, flow);
  const line = writing.lines(flow.file, flow.statement);
  switch (flow.type) {
    case 'step':
    case 'call': {
      const words =
        flow.statement.type === 'step'
          ? stepWords(module, flow.statement, flow.step)
          : { text: plain(flow.verb), with: [] };
      return {
        type: 'step',
        line,
        text: sentence(words.text),
        with: [...words.with],
        ...said,
        limits: flow.type === 'step' ? limitsOf(flow, context, citations) : [],
        clocks: flow.type === 'step' ? clocksOf(flow, writing.clocks) : [],
        steps: flow.type === 'call' ? checklistItems(writing, flow.items) : [],
      };
    }
    case 'pause':
      return {
        type: 'pause',
        line,
        name: flow.name,
        label: flow.pause?.label ?? plain(flow.name),
        hint: flow.pause?.statement.doc ?? null,
        items: [...flow.items],
        ...said,
        source: said.source ?? citations.number(flow.pause?.source, flow.pause?.file ?? flow.file),
        due: duties.at(flow.id),
      };
    case 'wait':
      return { type: 'wait', line, text: waitWords(module, flow), because: said.because, source: said.source };
    case 'verify':
      return {
        type: 'verify',
        line,
        text: sentence(flow.label),
        within:
          flow.statement.type === 'verify' && flow.statement.within
            ? measureWords(module, flow.statement.within)
            : null,
        ...said,
        otherwise: flow.statement.type === 'verify' ? (flow.statement.otherwiseText?.value ?? null) : null,
        steps: checklistItems(writing, flow.otherwise ?? []),
      };
    case 'decide': {
      const text = flow.findings.map((finding) => finding.label).join(', ');
      return {
        type: 'decide',
        line,
        text: text === '' ? sentence(flow.label) : text,
        how: text === '' || flow.label === text ? null : flow.label,
        ...said,
        options: flow.branches.map((branch) => ({
          line: writing.lines(flow.file, branch.statement),
          label: sentence(branch.label),
          who: [],
          steps: checklistItems(writing, branch.items),
        })),
      };
    }
    case 'together':
      return {
        type: 'together',
        line,
        lanes: flow.lanes.map((lane) => ({
          line: writing.lines(flow.file, lane.statement),
          label: sentence(lane.label),
          who: lane.by.map((role) => roleWords(module, role)),
          steps: checklistItems(writing, lane.items),
        })),
      };
    case 'repeat':
      return {
        type: 'repeat',
        line,
        until: flow.until ?? null,
        atMost: flow.atMost ?? null,
        steps: checklistItems(writing, flow.items),
      };
    case 'complication':
      return { type: 'complication', line, label: flow.label, steps: checklistItems(writing, flow.items) };
    case 'plain':
      return plainItem(flow.statement, said, line);
    case 'stop':
      return {
        type: 'stop',
        line,
        text: flow.statement.type === 'stop' ? (flow.statement.text?.value ?? '') : flow.label,
      };
    default:
      return flow satisfies never;
  }
}

type Said = Pick<Extract<ChecklistItem, { type: 'instruct' }>, 'who' | 'takes' | 'because' | 'source'>;

/** What a line says of itself at its end; who may do it when it does not say who does. */
function saidBy(writing: Writing, module: Module, flow: Flow): Said {
  const { statement } = flow;
  const because = 'because' in statement ? (statement.because?.value ?? null) : null;
  const source = 'source' in statement && statement.source ? statement.source.text : undefined;
  const may = flow.type === 'step' && flow.step.action?.type === 'action' ? flow.step.action.by : [];
  const who =
    flow.by.length > 0
      ? flow.by.map((role) => roleWords(module, role))
      : may.length > 0
        ? [may.map((role) => roleWords(module, role)).join(' or ')]
        : [];
  return {
    who,
    takes: takesWords(module, statement, flow.duration) ?? null,
    because,
    source: writing.citations.number(source, flow.file),
  };
}

/** As it is written, when the line itself says how long; otherwise what its action says. */
function takesWords(module: Module, statement: Statement, duration: Duration): string | undefined {
  if ('takes' in statement && typeof statement.takes === 'object' && statement.takes?.duration)
    return measureWords(module, statement.takes.duration);
  return durationWords(duration);
}

export function roleWords(module: Module, role: string): string {
  return entryNamed(module, role)?.label ?? sentence(plain(role));
}

export function waitWords(module: Module, flow: Extract<Flow, { type: 'wait' }>): string {
  const { statement, until, passing } = flow;
  const awaited = until ?? passing;
  if (awaited) {
    const age = until && until.seconds > 0 ? ` for ${ageOf(module, flow, until.seconds)}` : '';
    return `Wait until ${thingWords(awaited.thing)} is ${plain(awaited.state)}${age}`;
  }
  if (statement.type === 'wait' && statement.duration) return `Wait ${measureWords(module, statement.duration)}`;
  return 'Wait';
}

/** As it is written, if the line itself says it. */
function ageOf(module: Module, { statement }: Extract<Flow, { type: 'wait' }>, seconds: number): string {
  const written =
    statement.type === 'wait' && statement.until && 'for' in statement.until ? statement.until.for : undefined;
  const quantity = written?.type === 'quantity' ? module.quantity(written) : undefined;
  return formatQuantity(quantity ?? timeQuantity(seconds));
}

function plainItem(statement: Statement, said: Said, line: number | null): ChecklistItem | undefined {
  switch (statement.type) {
    case 'instruct':
      return { type: 'instruct', line, text: statement.text?.value ?? '', home: statement.atHome, ...said };
    case 'record':
      return {
        type: 'record',
        line,
        what: [sentence(plain(statement.what?.text ?? 'record')), statement.of && ofWords(statement.of)]
          .filter((word) => word !== undefined)
          .join(' of '),
        text: statement.text?.value ?? null,
        ...said,
      };
    case 'note':
      return { type: 'note', line, text: statement.text?.value ?? '' };
    default:
      return undefined;
  }
}

function ofWords(path: { readonly names: readonly { readonly text: string }[] }): string {
  return path.names.map((name) => plain(name.text)).join(' ');
}
