import type { LineWord, ProtocolStatement, Relation, Statement } from '@curette/grammar';
import type { Unit } from '@curette/shared';
import {
  type Action,
  type Declared,
  type Entry,
  type FigureSet,
  type Finding,
  type Kind,
  type Pause,
  type Procedure,
  type Property,
  type PropertyValue,
  placeOf,
  type Rule,
  type SlotModel,
  type Source,
  type Track,
} from '../analysis/model.ts';
import type { ProtocolFacts } from '../analysis/protocol/protocol.ts';
import type { Thing } from '../analysis/protocol/things.ts';
import type { FileId, Place } from '../problems/problem.ts';

/** What a word in a file stands for. */
export type Meaning =
  | { readonly type: 'kind'; readonly kind: Kind }
  | { readonly type: 'entry'; readonly entry: Entry }
  /** all of a verb; `chosen` is the one this step means */
  | {
      readonly type: 'actions';
      readonly verb: string;
      readonly actions: readonly (Action | Procedure)[];
      readonly chosen: Action | Procedure | undefined;
    }
  | { readonly type: 'rule'; readonly rule: Rule }
  /** common practice has no declaration */
  | { readonly type: 'source'; readonly name: string; readonly source: Source | undefined }
  | { readonly type: 'finding'; readonly finding: Finding }
  | { readonly type: 'finding value'; readonly finding: Finding; readonly value: string }
  | { readonly type: 'pause'; readonly pause: Pause }
  | { readonly type: 'protocol'; readonly declared: Declared<ProtocolStatement> }
  | { readonly type: 'unit'; readonly spelling: string; readonly unit: Unit; readonly declared: Place | undefined }
  /** `file` has the protocol that lists it; `facts` are that protocol's */
  | {
      readonly type: 'thing';
      readonly thing: Thing;
      readonly file: FileId;
      readonly facts: () => ProtocolFacts | undefined;
    }
  | {
      readonly type: 'property';
      readonly property: Property;
      readonly value: PropertyValue | undefined;
      readonly of: string;
      readonly kind: Kind;
    }
  | { readonly type: 'state'; readonly state: string; readonly track: Track; readonly kind: Kind }
  | { readonly type: 'slot'; readonly slot: SlotModel; readonly place: Place }
  | { readonly type: 'relation value'; readonly value: string; readonly relation: Relation; readonly kind: Kind }
  /** `applied`: where the cursor is; `one of two` of its group are, and so neither counts */
  | { readonly type: 'figures'; readonly set: FigureSet; readonly applied: 'yes' | 'no' | 'one of two' }
  /** `place` is the first property that takes its value from the group */
  | {
      readonly type: 'figure group';
      readonly group: string;
      readonly place: Place | undefined;
      readonly sets: readonly { readonly set: FigureSet; readonly applied: boolean }[];
    }
  | { readonly type: 'file'; readonly id: FileId }
  | { readonly type: 'word'; readonly word: LineWord };

/** Something that bears a name, with what kind of thing it is. */
export interface Bearer {
  readonly meaning: Meaning;
  readonly kind: Kind | undefined;
  readonly thing: Thing | undefined;
}

/** Where the thing a word stands for is declared; none for what is built in. */
export function declarationsOf(meaning: Meaning): readonly Place[] {
  switch (meaning.type) {
    case 'kind':
      return [nameOf(meaning.kind, meaning.kind.statement.name)];
    case 'entry':
      return [nameOf(meaning.entry, meaning.entry.statement.name)];
    case 'actions': {
      const meant = meaning.chosen ? [meaning.chosen] : meaning.actions;
      return meant.map((action) =>
        placeOf(action.file, action.statement, action.statement.verb ?? action.statement.head),
      );
    }
    case 'rule':
      return [nameOf(meaning.rule, meaning.rule.statement.name)];
    case 'source':
      return meaning.source ? [nameOf(meaning.source, meaning.source.statement.name)] : [];
    case 'finding':
      return [nameOf(meaning.finding, meaning.finding.statement.name)];
    case 'finding value':
      return (meaning.finding.statement.body?.items ?? []).flatMap((item) =>
        item.type === 'finding value' && item.name.text === meaning.value
          ? [placeOf(meaning.finding.file, item, item.name)]
          : [],
      );
    case 'pause':
      return [nameOf(meaning.pause, meaning.pause.statement.name)];
    case 'protocol':
      return [nameOf(meaning.declared, meaning.declared.statement.name)];
    case 'unit':
      return meaning.declared ? [meaning.declared] : [];
    case 'thing': {
      const { thing, file } = meaning;
      if (thing.statement) return [placeOf(file, thing.statement, thing.statement.name)];
      const declared = thing.entry ?? thing.kind;
      return [nameOf(declared, declared.statement.name)];
    }
    case 'property':
      return [propertyPlace(meaning.kind, meaning.property)];
    case 'state':
      return statePlaces(meaning.kind, meaning.state);
    case 'slot':
      return [meaning.place];
    case 'relation value':
      return relationPlaces(meaning.kind, meaning.relation, meaning.value);
    case 'figures':
      return [nameOf(meaning.set, meaning.set.statement.name)];
    case 'figure group':
      return meaning.place ? [meaning.place] : [];
    case 'file':
      return [{ file: meaning.id, statement: 0, span: { start: 0, end: 0 } }];
    case 'word':
      return [];
    default:
      return meaning satisfies never;
  }
}

function nameOf(
  declared: Declared<Statement>,
  name: { readonly start: number; readonly end: number } | undefined,
): Place {
  return placeOf(declared.file, declared.statement, name ?? declared.statement.head);
}

function propertyPlace(kind: Kind, property: Property): Place {
  for (let k: Kind | undefined = kind; k; k = k.parent)
    for (const item of k.statement.body?.items ?? [])
      if (item.type === 'property' && item.id === property.ground.place.statement && k.name === property.owner)
        return placeOf(k.file, item, item.name);
  return property.ground.place;
}

/** The line of the nearest kind, going up, that speaks of the state first. */
function statePlaces(kind: Kind, state: string): Place[] {
  for (let k: Kind | undefined = kind; k; k = k.parent)
    for (const item of k.statement.body?.items ?? []) {
      if (item.type === 'states')
        for (const name of item.chains.flat()) if (name.text === state) return [placeOf(k.file, item, name)];
      if (item.type === 'lasts' && item.then?.text === state) return [placeOf(k.file, item, item.then)];
    }
  return [];
}

function relationPlaces(kind: Kind, relation: Relation, value: string): Place[] {
  for (let k: Kind | undefined = kind; k; k = k.parent)
    for (const item of k.statement.body?.items ?? [])
      if (item.type === 'relation' && item.relation === relation)
        for (const name of item.values) if (name.text === value) return [placeOf(k.file, item, name)];
  return [];
}
