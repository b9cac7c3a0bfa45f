/**
 * Trees as text a person can compare: one statement a line, `type` first, then each part that is there by name, what is in
 * a block indented below it, and flaws behind `!`. `at(text, span)` gives the words a span lies on.
 */
import type {
  Argument,
  Expr,
  Name,
  Pattern,
  PropertyType,
  QuantityNode,
  SizeNode,
  Slot,
  Span,
  Statement,
  StepPart,
  SyntaxTree,
  Text,
} from '@curette/grammar';
import { forEachStatement, parse } from '@curette/grammar';

const base = new Set(['id', 'length', 'head', 'doc', 'flaws', 'body', 'type', 'start', 'end']);

/** The statements of a file, or of the block that `inside` wraps around the lines. */
export function read(text: string, inside: keyof typeof wraps = 'file'): string {
  const [before, after] = wraps[inside];
  const whole = before + text + after;
  let lines: string[] = [];
  const tree = parse(whole);
  if (inside === 'file') lines = tree.body.items.flatMap((statement) => show(statement));
  else {
    forEachStatement(tree, (statement, start) => {
      if (statement.body !== undefined && start + statement.body.open + 1 === before.length) {
        lines = statement.body.items.flatMap((item) => show(item));
      }
    });
  }
  return lines.join('\n');
}

/** What stands around a line to be read in a block of that sort. */
const wraps = {
  file: ['', ''],
  kind: ['kind k {', '\n}'],
  properties: ['material m "M" is k {', '\n}'],
  action: ['action a (x y) {', '\n}'],
  rule: ['rule r {', '\n}'],
  source: ['source s "S" {', '\n}'],
  finding: ['finding f {', '\n}'],
  pause: ['pause p {', '\n}'],
  protocol: ['protocol p {', '\n}'],
  given: ['protocol p { given {', '\n} }'],
  team: ['protocol p { team {', '\n} }'],
  steps: ['protocol p { visit v {', '\n} }'],
  options: ['protocol p { visit v { decide f {', '\n} } }'],
  lanes: ['protocol p { visit v { together {', '\n} } }'],
  case: ['case c of p {', '\n}'],
  figures: ['figures f of g {', '\n}'],
  figure: ['figures f of g { e {', '\n} }'],
} as const;

export function show(statement: Statement, indent = ''): string[] {
  const parts = Object.entries(statement)
    .filter(
      ([key, value]) =>
        !base.has(key) && value !== undefined && value !== false && !(Array.isArray(value) && value.length === 0),
    )
    .map(([key, value]) => `${key}=${part(value)}`);
  const flaws = statement.flaws.map(
    (flaw) => ` !${flaw.code}${flaw.expected === undefined ? '' : `[${flaw.expected}]`}`,
  );
  const head = `${indent}${statement.type}${parts.length > 0 ? ` ${parts.join(' ')}` : ''}${flaws.join('')}`;
  const doc = statement.doc === undefined ? [] : statement.doc.split('\n').map((line) => `${indent}/// ${line}`);
  const body =
    statement.body === undefined
      ? []
      : [
          `${indent}  {${statement.body.container}}`,
          ...statement.body.items.flatMap((item) => show(item, `${indent}  `)),
        ];
  return [...doc, head, ...body];
}

/** Every statement of a tree with the words of its head, to compare what survives. */
export function heads(text: string, tree: SyntaxTree): { type: string; words: string }[] {
  const found: { type: string; words: string }[] = [];
  forEachStatement(tree, (statement, start) => {
    found.push({ type: statement.type, words: at(text, statement.head, start) });
  });
  return found;
}

export function at(text: string, span: Span, start = 0): string {
  return text.slice(start + span.start, start + span.end);
}

function part(value: unknown): string {
  if (Array.isArray(value))
    return value.length > 0 && value.every(isPart) ? value.map(stepPart).join(' ') : `[${value.map(part).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return String(value);
  if ('slots' in value) return pattern(value as Pattern);
  if ('optional' in value && 'many' in value) return slot(value as Slot);
  if ('form' in value && !('low' in value)) return propertyType(value as PropertyType);
  if ('type' in value) return expr(value as Expr);
  if ('text' in value && 'start' in value && !('amount' in value)) return (value as Name).text;
  if ('duration' in value) {
    const { duration, usually } = value as { duration: QuantityNode | undefined; usually: QuantityNode | undefined };
    return `${optional(duration)}${usually === undefined ? '' : ` usually ${expr(usually)}`}`;
  }
  if ('side' in value) {
    const { side, value: inner } = value as { side: string; value: Expr };
    return `${side} ${expr(inner)}`;
  }
  if ('subject' in value && 'state' in value) {
    const { subject, state } = value as { subject: Expr; state: Name | undefined };
    return `${expr(subject)}:${state?.text ?? '?'}`;
  }
  throw new Error(`no way to show ${JSON.stringify(value)}`);
}

function isPart(value: unknown): value is StepPart {
  return typeof value === 'object' && value !== null && 'arguments' in value;
}

function stepPart({ preposition, arguments: args }: StepPart): string {
  return `${preposition === undefined ? '' : preposition.text}(${args.map(argument).join(', ')})`;
}

function argument({ thing, amount, text }: Argument): string {
  return [thing, amount, text]
    .filter((value) => value !== undefined)
    .map(expr)
    .join(' ');
}

function pattern({ sort, verb, slots, values, where, others }: Pattern): string {
  const found = values.length > 0 ? [`is ${values.map(({ text }) => text).join(' or ')}`] : [];
  const asked = where ? [`where ${expr(where)}`] : [];
  const more = others.map((other) => ` or ${pattern(other)}`).join('');
  return `<${sort === 'step' || sort === 'stop' ? '' : `${sort} `}${[verb?.text ?? '?', ...slots.map(slot), ...found, ...asked].join(' ')}>${more}`;
}

function slot({ preposition, optional: may, many, kind, name }: Slot): string {
  const inner = [may ? 'optional' : '', many ? 'many' : '', kind?.text ?? '?', name?.text ?? ''].filter(
    (word) => word !== '',
  );
  return `${preposition?.text ?? ''}(${inner.join(' ')})`;
}

function propertyType(type: PropertyType): string {
  switch (type.form) {
    case 'quantity':
      return `quantity(${type.dimension}${type.range ? ' range' : ''})`;
    case 'one of':
    case 'any of':
      return `${type.form}(${type.values.map(({ text }) => text).join(', ')})`;
    case 'kind':
      return `kind(${type.kind.text})`;
    default:
      return type.form;
  }
}

function optional(value: Expr | undefined): string {
  return value === undefined ? '?' : expr(value);
}

export function expr(value: Expr | SizeNode | QuantityNode | Text): string {
  switch (value.type) {
    case 'path':
      return value.names.map(({ text }) => text).join('.');
    case 'text':
      return JSON.stringify(value.value);
    case 'yes or no':
      return value.value ? 'yes' : 'no';
    case 'size':
      return value.sides.map(quantity).join(' by ');
    case 'quantity':
      return quantity(value);
    case 'and':
    case 'or':
      return `(${expr(value.left)} ${value.type} ${optional(value.right)})`;
    case 'not':
      return `(not ${optional(value.operand)})`;
    case 'compare':
    case 'arithmetic':
      return `(${expr(value.left)} ${value.op} ${optional(value.right)})`;
    case 'is':
      return `(${expr(value.subject)} is ${value.negated ? 'not ' : ''}${value.name?.text ?? '?'}${forHowLong(value.for)})`;
    case 'state':
      return `(${expr(value.subject)} : ${value.state.text}${forHowLong(value.for)})`;
    case 'relation':
      return `(${expr(value.subject)} ${value.relation} ${value.value?.text ?? '?'})`;
    case 'call':
      return `${value.name.text}(${value.args.map(expr).join(', ')})`;
  }
}

function forHowLong(value: Expr | undefined): string {
  return value === undefined ? '' : ` for ${expr(value)}`;
}

function quantity({ form, low, high }: QuantityNode): string {
  const measure = (side: typeof low): string =>
    side === undefined ? '?' : `${side.value}${side.unit === undefined ? '' : ` ${side.unit.text}`}`;
  switch (form) {
    case 'plain':
      return measure(low);
    case 'range':
      return `${measure(low)}..${measure(high)}`;
    case 'ratio':
      return `${measure(low)}:${measure(high)}`;
    case 'at most':
      return `at most ${measure(high)}`;
    default:
      return `${form} ${measure(low)}`;
  }
}
