import type { Kind } from '../analysis/model.ts';
import { kindNamed } from '../analysis/names/resolve.ts';
import type { FileId } from '../problems/problem.ts';
import type { Checked } from './checked.ts';
import type { Definition } from './definition.ts';
import { stretchOf } from './diagnostics.ts';
import { declarationsOf, type Meaning } from './meaning.ts';
import type { Surroundings } from './surroundings.ts';
import { symbolAt } from './symbol-at.ts';

/** Where it is declared what sort of thing stands under the cursor: of a thing its entry, of an entry its kind. */
export function typeDefinition(checked: Checked, file: FileId, offset: number): Definition | undefined {
  const symbol = symbolAt(checked, file, offset);
  const sort = symbol && sortOf(symbol.around, symbol.meaning);
  if (!symbol || !sort) return undefined;
  const targets = declarationsOf(sort).flatMap((place) => stretchOf(checked, place) ?? []);
  return targets.length === 0 ? undefined : { word: symbol, targets };
}

function sortOf(around: Surroundings, meaning: Meaning): Meaning | undefined {
  const ofKind = (kind: Kind | undefined): Meaning | undefined => kind && { type: 'kind', kind };
  switch (meaning.type) {
    case 'thing':
      return meaning.thing.entry ? { type: 'entry', entry: meaning.thing.entry } : ofKind(meaning.thing.kind);
    case 'entry':
      return ofKind(meaning.entry.kind);
    case 'kind':
      return ofKind(meaning.kind.parent);
    case 'state':
    case 'relation value':
      return ofKind(meaning.kind);
    case 'property': {
      const { type } = meaning.property;
      return type?.form === 'kind' ? ofKind(kindNamed(around.module, type.kind.text)) : undefined;
    }
    case 'slot':
      return meaning.slot.accepts.type === 'kind' ? ofKind(meaning.slot.accepts.kind) : undefined;
    case 'finding value':
      return { type: 'finding', finding: meaning.finding };
    case 'actions':
    case 'rule':
    case 'source':
    case 'finding':
    case 'pause':
    case 'protocol':
    case 'unit':
    case 'figures':
    case 'figure group':
    case 'file':
    case 'word':
      return undefined;
    default:
      return meaning satisfies never;
  }
}
