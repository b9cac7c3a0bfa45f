import type { Name, Statement } from '@curette/grammar';
import { duplicateName } from '../../problems/duplicate_name.ts';
import { type FileId, problemAt, type Report } from '../../problems/problem.ts';
import { placeOf } from '../model.ts';

/** Tells names that stand a second time among sisters that nobody could then tell apart. */
export function checkRepeatedNames(
  file: FileId,
  names: Iterable<{ readonly name: Name; readonly statement: Statement }>,
  report: Report,
): void {
  const seen = new Map<string, { readonly name: Name; readonly statement: Statement }>();
  for (const one of names) {
    const { name, statement } = one;
    const first = seen.get(name.text);
    if (!first) seen.set(name.text, one);
    else
      report(
        problemAt(duplicateName, placeOf(file, statement, name), {
          name: name.text,
          first: placeOf(file, first.statement, first.name),
          both: true,
        }),
      );
  }
}
