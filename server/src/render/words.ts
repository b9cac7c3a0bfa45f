import type { Expr, QuantityNode, SizeNode, StepStatement } from '@curette/grammar';
import { between, formatQuantity, formatSize, parseUnit } from '@curette/shared';
import { descendsFrom } from '../analysis/kinds/subkind.ts';
import type { Duration } from '../analysis/model.ts';
import type { Module } from '../analysis/names/module.ts';
import type { ResolvedStep } from '../analysis/protocol/step.ts';
import type { Thing } from '../analysis/protocol/things.ts';
import { plain } from './text.ts';

/** A step as it is said: what is done, and apart from it what it is done with. */
export interface StepWords {
  readonly text: string;
  /** instruments */
  readonly with: readonly string[];
}

/**
 * @param module the file the step stands in; inside a routine that is the routine's own
 */
export function stepWords(module: Module, statement: StepStatement, step: ResolvedStep): StepWords {
  const things = new Map<number, Thing>();
  for (const filling of step.fillings.values())
    if (filling.type === 'things') for (const { thing, span } of filling.things) things.set(span.start, thing);
  const words: string[] = [plain(statement.verb.text)];
  const tools: string[] = [];
  for (const part of statement.parts) {
    const found = part.arguments.map((argument) => ({
      argument,
      thing: argument.thing && things.get(argument.thing.start),
    }));
    const onlyTools =
      part.preposition !== undefined &&
      found.length > 0 &&
      found.every(({ argument, thing }) => thing && isInstrument(thing) && !argument.amount && !argument.text);
    if (onlyTools) {
      for (const { thing } of found) if (thing) tools.push(toolWords(thing));
      continue;
    }
    if (part.preposition) words.push(part.preposition.text);
    words.push(
      found
        .map(({ argument, thing }) =>
          [
            (thing && thingWords(thing)) ?? argument.thing?.names.map((name) => plain(name.text)).join(' '),
            argument.amount && measureWords(module, argument.amount),
            argument.text && `“${argument.text.value}”`,
          ]
            .filter((word) => word !== undefined)
            .join(' '),
        )
        .join(', '),
    );
  }
  return { text: words.join(' '), with: tools };
}

/** As the protocol calls it. */
export function thingWords(thing: Thing): string {
  return plain(thing.name);
}

export function isInstrument(thing: Thing): boolean {
  return thing.group === 'instruments' || descendsFrom(thing.kind, 'instrument');
}

/** An instrument by its proper name; one with a name of its own in the protocol keeps it. */
function toolWords(thing: Thing): string {
  const proper = thing.entry?.label ?? thing.kind.label;
  return thing.statement?.kind ? `${thingWords(thing)} (${proper})` : proper;
}

/** A written quantity or size for people; one whose unit is not known, as it is written. */
export function measureWords(module: Module, node: QuantityNode | SizeNode): string {
  if (node.type === 'size') {
    const sides = node.sides.map((side) => module.quantity(side));
    const known = sides.filter((side) => side !== undefined);
    if (known.length === sides.length) return formatSize(known);
    return node.sides.map((side) => measureWords(module, side)).join(' × ');
  }
  const quantity = module.quantity(node);
  if (quantity) return formatQuantity(quantity);
  const end = (measure: QuantityNode['low']) => measure && `${measure.value} ${measure.unit?.text ?? ''}`.trim();
  const ends = [end(node.low), end(node.high)].filter((one) => one !== undefined);
  const head = node.form === 'at least' || node.form === 'at most' || node.form === 'exactly' ? `${node.form} ` : '';
  return head + ends.join(node.form === 'ratio' ? ':' : '–');
}

/** A duration in the unit a person would choose; undefined when nothing is stated or it takes no time. */
export function durationWords(duration: Duration): string | undefined {
  const open = !duration.stated || !Number.isFinite(duration.hi);
  if (open ? duration.lo <= 0 : duration.hi <= 0) return undefined;
  if (open) return `at least ${timeWords(duration.lo, duration.lo)}`;
  const inSeconds = duration.lo > 0 && duration.lo < 60;
  return inSeconds && duration.hi > 90
    ? `${timeWords(duration.lo, duration.lo)}–${timeWords(duration.hi, duration.hi)}`
    : timeWords(duration.lo, duration.hi);
}

function timeWords(lo: number, hi: number): string {
  const code = hi >= 172_800 ? 'd' : hi >= 21_600 ? 'h' : hi > 90 ? 'min' : 's';
  const size = { d: 86_400, h: 3600, min: 60, s: 1 }[code];
  // Half a minute is of no account in a quarter of an hour; what is shown covers what was added up.
  const whole = code === 'min' && hi >= 900;
  const short = (seconds: number, round: (n: number) => number) =>
    whole ? round(seconds / size) : Math.round((seconds / size) * 10) / 10;
  const low = short(lo, Math.floor);
  const high = short(hi, Math.ceil);
  const unit = parseUnit(code);
  const quantity = unit.ok ? between(low, high, unit.unit) : undefined;
  return quantity ? formatQuantity(quantity) : `${low}–${high} ${code}`;
}

/** A condition on the patient or the findings as a person says it. */
export function conditionWords(module: Module, expr: Expr | undefined): string {
  if (!expr) return '';
  const inner = (part: Expr | undefined) => conditionWords(module, part);
  switch (expr.type) {
    case 'and':
    case 'or':
      return `${inner(expr.left)} ${expr.type} ${inner(expr.right)}`;
    case 'not':
      return `not ${inner(expr.operand)}`;
    case 'compare':
      return `${inner(expr.left)} ${COMPARED[expr.op]} ${inner(expr.right)}`;
    case 'arithmetic':
      return `${inner(expr.left)} ${expr.op} ${inner(expr.right)}`;
    case 'is':
      return `${inner(expr.subject)} is ${expr.negated ? 'not ' : ''}${plain(expr.name?.text ?? '')}${forWords(module, expr.for)}`;
    case 'state':
      return `${inner(expr.subject)} is ${plain(expr.state.text)}${forWords(module, expr.for)}`;
    case 'relation':
      return `${inner(expr.subject)} ${expr.relation === 'allergic to' ? 'is allergic to' : expr.relation} ${plain(expr.value?.text ?? '')}`;
    case 'call':
      return `${plain(expr.name.text)} of ${expr.args.map(inner).join(', ')}`;
    case 'path':
      return expr.names
        .map((name) => plain(name.text))
        .reverse()
        .join(' of ');
    case 'quantity':
    case 'size':
      return measureWords(module, expr);
    case 'text':
      return `“${expr.value}”`;
    case 'yes or no':
      return expr.value ? 'yes' : 'no';
    default:
      return expr satisfies never;
  }
}

function forWords(module: Module, time: Expr | undefined): string {
  return time ? ` for ${conditionWords(module, time)}` : '';
}

const COMPARED = {
  '<': 'under',
  '<=': 'at most',
  '>': 'over',
  '>=': 'at least',
  '=': 'equal to',
  within: 'within',
} as const;
