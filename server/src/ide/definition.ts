import type { FileId } from '../problems/problem.ts';
import type { Checked, Stretch } from './checked.ts';
import { stretchOf } from './diagnostics.ts';
import { declarationsOf } from './meaning.ts';
import { symbolAt } from './symbol-at.ts';

/** Where what stands under the cursor is declared. */
export interface Definition {
  /** the word asked about */
  readonly word: Stretch;
  readonly targets: readonly Stretch[];
}

export function definition(checked: Checked, file: FileId, offset: number): Definition | undefined {
  const symbol = symbolAt(checked, file, offset);
  if (!symbol) return undefined;
  const targets = declarationsOf(symbol.meaning).flatMap((place) => stretchOf(checked, place) ?? []);
  return targets.length === 0 ? undefined : { word: symbol, targets };
}
