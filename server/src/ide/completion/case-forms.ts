import type { Statement } from '@curette/grammar';
import { protocolNamed } from '../surroundings.ts';
import type { Context } from './context.ts';
import { type Form, type FormPart, formOf, gap } from './form.ts';

/** A case of a protocol, read off its lines alone: the protocol need not be checked for it. */
export function caseForm(context: Context, name: string): Form | undefined {
  const declared = protocolNamed(context.checked, context.module, name);
  if (!declared) return undefined;
  const home = context.module.module(declared.file);
  const findings = new Set<string>();
  const given: string[] = [];
  look(declared.statement, (statement) => {
    if (statement.type === 'decide') for (const { text } of statement.findings) findings.add(text);
    if (statement.type === 'given')
      for (const thing of statement.body?.items ?? []) if (thing.type === 'thing') given.push(thing.name.text);
  });
  let stop = 2;
  const lines: FormPart[] = given.flatMap((thing): FormPart[] => {
    stop += 1;
    return [`  ${thing} { `, gap(stop, []), ' }\n'];
  });
  for (const finding of findings) {
    const values = context.finding(finding)?.values ?? home?.declarations.finding(finding)?.values;
    stop += 1;
    lines.push(`  ${finding} `, gap(stop, values ? [...values.keys()] : ['value']), '\n');
  }
  return [...formOf(`case [name] of ${name} {\n  start [2027-01-11]\n`), ...lines, '}'];
}

function look(statement: Statement, visit: (statement: Statement) => void): void {
  visit(statement);
  for (const item of statement.body?.items ?? []) look(item, visit);
}
