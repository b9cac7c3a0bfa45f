import type { CaseStatement, Expr, Name, RelationStatement, Span, Statement, ValueStatement } from '@curette/grammar';
import { caseFactUnknown } from '../../problems/case_fact_unknown.ts';
import { caseValueUnclear } from '../../problems/case_value_unclear.ts';
import { duplicateName } from '../../problems/duplicate_name.ts';
import { notJudged } from '../../problems/not_judged.ts';
import { optionUnknown } from '../../problems/option_unknown.ts';
import { type Place, problemAt, type Report } from '../../problems/problem.ts';
import { descendsFrom } from '../kinds/subkind.ts';
import { readValues } from '../kinds/value.ts';
import { type Finding, type PropertyValue, placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';
import { findingNamed } from '../names/resolve.ts';
import type { Filled } from '../protocol/filled.ts';
import { forEachFlow } from '../protocol/flow.ts';
import type { ProtocolFacts } from '../protocol/protocol.ts';
import type { Thing, Things } from '../protocol/things.ts';
import { propertiesFitting } from './bare-value.ts';
import { type CasesProtocol, labelOf } from './of.ts';
import { readingModule } from './reading.ts';
import { checkWithin } from './within.ts';

/** One fact of a case, sound in itself. */
export type CaseLine = {
  /** what it speaks of: two lines of one key are the same fact */
  readonly key: string;
  readonly place: Place;
} & (
  | { readonly type: 'value'; readonly thing: string; readonly value: PropertyValue }
  /** `has diabetes` */
  | { readonly type: 'condition'; readonly thing: string; readonly condition: string }
  | { readonly type: 'finding'; readonly finding: string; readonly value: string }
);

/** What lines come to. Of each given thing it is then known what applies to it and what does not. */
export function filledBy(lines: readonly CaseLine[], things: Things): Filled {
  const values = new Map<string, Map<string, PropertyValue>>();
  const conditions = new Map<string, Set<string>>();
  const found = new Map<string, string>();
  for (const thing of givenThings(things)) conditions.set(thing.name, new Set());
  for (const line of lines)
    switch (line.type) {
      case 'value': {
        const own = values.get(line.thing) ?? new Map();
        values.set(line.thing, own.set(line.value.name, line.value));
        break;
      }
      case 'condition':
        conditions.get(line.thing)?.add(line.condition);
        break;
      case 'finding':
        found.set(line.finding, line.value);
        break;
      default:
        line satisfies never;
    }
  return { values, conditions, found };
}

/** Reads what a case says. What is wrong with a line is told, and the line is then left out: the protocol's own range stands. */
export function readLines(
  module: Module,
  statement: CaseStatement,
  of: CasesProtocol,
  report: Report,
): readonly CaseLine[] {
  const reader: Reader = {
    module: readingModule(module, of.module),
    things: of.facts.context.things,
    of,
    asked: findingsAsked(of.facts),
    report,
    lines: new Map(),
  };
  for (const item of statement.body?.items ?? []) {
    if (item.type === 'relation') readWhose(reader, item);
    if (item.type === 'value') readFact(reader, item);
  }
  return [...reader.lines.values()];
}

/** The findings that decisions of a protocol ask for, by name. */
export function findingsAsked({ visits }: ProtocolFacts): ReadonlyMap<string, Finding> {
  const asked = new Map<string, Finding>();
  for (const visit of visits)
    forEachFlow(visit.items, (flow) => {
      if (flow.type === 'decide') for (const finding of flow.findings) asked.set(finding.name, finding);
    });
  return asked;
}

export function givenThings(things: Things): readonly Thing[] {
  return [...things.byName.values()].filter(({ group }) => group === 'given');
}

interface Reader {
  readonly module: Module;
  readonly things: Things;
  readonly of: CasesProtocol;
  readonly asked: ReadonlyMap<string, Finding>;
  readonly report: Report;
  readonly lines: Map<string, CaseLine>;
}

/** Takes a fact in; one that is said already is told, and the first stands. */
function take(reader: Reader, line: CaseLine, statement: Statement, words: string, span: Span): void {
  const { module, report, lines } = reader;
  const first = lines.get(line.key);
  if (first) {
    report(
      problemAt(duplicateName, placeOf(module.id, statement, span), { name: words, first: first.place, both: true }),
    );
    return;
  }
  lines.set(line.key, line);
}

function readFact(reader: Reader, item: ValueStatement): void {
  const { module, things, asked, of, report } = reader;
  const name = item.name.text;
  const thing = things.byName.get(name);
  if (thing?.group === 'given') {
    readThing(reader, item, thing);
    return;
  }
  const finding = asked.get(name);
  if (finding) {
    readFinding(reader, item, finding);
    return;
  }
  const place = placeOf(module.id, item, item.name);
  report(
    problemAt(caseFactUnknown, place, {
      name,
      protocol: labelOf(of),
      is: thing ? thing.group : findingNamed(of.module, name) ? 'finding' : undefined,
      given: givenThings(things).map((one) => one.name),
      findings: [...asked.keys()],
      place,
      file: module.id,
      statement: item.id,
    }),
  );
}

/** `buccal_wall lost` */
function readFinding(reader: Reader, item: ValueStatement, finding: Finding): void {
  const { module, report } = reader;
  const [value, more] = item.values;
  const name = value && nameOf(value);
  if (!value || !name || more || item.body) {
    if (value || item.body)
      report(problemAt(caseValueUnclear, placeOf(module.id, item, value ?? item.name), findingUnclear(finding)));
    return;
  }
  const place = placeOf(module.id, item, name);
  if (!finding.values.has(name.text)) {
    report(problemAt(optionUnknown, place, { value: name.text, finding, place }));
    return;
  }
  const line: CaseLine = {
    key: `finding ${finding.name}`,
    place,
    type: 'finding',
    finding: finding.name,
    value: name.text,
  };
  take(reader, line, item, finding.name, item.name);
}

function findingUnclear(finding: Finding) {
  return {
    name: finding.label,
    problem: 'one finding' as const,
    candidates: [...finding.values.keys()],
    mends: [],
  };
}

function readThing(reader: Reader, item: ValueStatement, thing: Thing): void {
  const { module, report } = reader;
  for (const node of item.values) {
    const fitting = propertiesFitting(module, thing.kind, node, reader.things);
    const [property] = fitting;
    if (property !== undefined && fitting.length === 1) {
      const { body: _, ...rest } = item;
      const name: Name = { ...item.name, text: property };
      readProperties(reader, thing, [{ ...rest, body: undefined, name, values: [node] }]);
      continue;
    }
    const place = placeOf(module.id, item, node);
    report(
      problemAt(caseValueUnclear, place, {
        name: thing.label,
        problem: fitting.length === 0 ? 'nothing fits' : 'several fit',
        candidates: fitting.length === 0 ? [...thing.kind.properties.keys()] : fitting,
        mends: fitting.map((one) => ({ before: `{ ${one} `, after: ' }', place })),
      }),
    );
  }
  if (item.body) readProperties(reader, thing, item.body.items);
}

/** `mass 70 kg`, `has diabetes` */
function readProperties(reader: Reader, thing: Thing, items: readonly Statement[]): void {
  const { module, things, report } = reader;
  for (const item of items) {
    if (item.type === 'relation') readRelation(reader, item, thing);
    if (item.type === 'contraindicated' || item.type === 'caution')
      report(
        problemAt(notJudged, placeOf(module.id, item, item.head), { what: 'a contraindication stated in a case' }),
      );
    if (item.type !== 'value') continue;
    const kindOf = (name: string) => things.byName.get(name)?.kind;
    let sound = true;
    const noting: Report = (problem) => {
      if (problem.severity === 'error') sound = false;
      report(problem);
    };
    const value = readValues(module, [item], thing.kind, kindOf, noting).get(item.name.text);
    if (!value || value.values.length === 0 || !sound) continue;
    if (!checkWithin(module, item, thing, value, report)) continue;
    const [first] = item.values;
    const place = placeOf(module.id, item, first ?? item.name);
    const line: CaseLine = { key: `${thing.name}.${value.name}`, place, type: 'value', thing: thing.name, value };
    take(reader, line, item, `${value.name.replaceAll('_', ' ')} of ${thing.label}`, item.name);
  }
}

function readRelation(reader: Reader, item: RelationStatement, thing: Thing): void {
  // A word that the kind does not have is told; nothing else is wrong with such a line.
  readValues(reader.module, [item], thing.kind, () => undefined, reader.report);
  for (const name of item.values) {
    if (!thing.kind.relations[item.relation].has(name.text)) continue;
    const condition = `${item.relation} ${name.text}`;
    const place = placeOf(reader.module.id, item, name);
    const line: CaseLine = {
      key: `${thing.name} ${condition}`,
      place,
      type: 'condition',
      thing: thing.name,
      condition,
    };
    take(reader, line, item, condition, name);
  }
}

/** What is said of nobody in particular is said of the patient. */
function readWhose(reader: Reader, item: RelationStatement): void {
  const { module, things, of, report } = reader;
  const thing = givenThings(things).find(({ kind }) => descendsFrom(kind, 'patient'));
  if (thing) {
    readRelation(reader, item, thing);
    return;
  }
  const place = placeOf(module.id, item, item.head);
  report(
    problemAt(caseFactUnknown, place, {
      name: item.relation,
      protocol: labelOf(of),
      is: 'relation',
      given: [],
      findings: [],
      place,
      file: module.id,
      statement: item.id,
    }),
  );
}

function nameOf(node: Expr): Name | undefined {
  return node.type === 'path' && node.names.length === 1 ? node.names[0] : undefined;
}
