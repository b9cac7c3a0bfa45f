import type { Grounds, Statement } from '@curette/grammar';
import type { FileId } from '../../problems/problem.ts';
import { type Ground, placeOf } from '../model.ts';

/** What a line says it rests on. */
export function groundOf(file: FileId, statement: Statement, grounds: Partial<Grounds>): Ground {
  return {
    source: grounds.source?.text,
    because: grounds.because?.value,
    place: placeOf(file, statement, statement.head),
  };
}
