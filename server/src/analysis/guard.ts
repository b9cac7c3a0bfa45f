import type { Statement } from '@curette/grammar';
import { internalFailure } from '../problems/internal_failure.ts';
import { type FileId, problemAt, type Report } from '../problems/problem.ts';
import { placeOf } from './model.ts';

/** A pass that fails is our defect: it is told as one problem at the declaration, and everything else still answers. */
export function guard(
  file: FileId,
  statement: Statement | undefined,
  pass: string,
  report: Report,
  run: () => void,
): void {
  try {
    run();
  } catch (error) {
    const place = statement
      ? placeOf(file, statement, statement.head)
      : { file, statement: 0, span: { start: 0, end: 0 } };
    report(problemAt(internalFailure, place, { pass, detail: error instanceof Error ? error.message : String(error) }));
  }
}
