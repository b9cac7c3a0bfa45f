import { type Placed, pathAt, type Statement } from '@curette/grammar';
import { type Action, type Declared, type Kind, type Procedure, placeOf } from '../analysis/model.ts';
import type { Module } from '../analysis/names/module.ts';
import type { SourceFile } from '../analysis/snapshot.ts';
import type { FileId, Place } from '../problems/problem.ts';
import type { Checked, Stretch } from './checked.ts';
import { declarationsOf, type Meaning } from './meaning.ts';
import { referencesIn } from './meant-words.ts';
import { type Surroundings, slotsOf, surroundingsUnchecked } from './surroundings.ts';

export type NamedSort =
  | Exclude<Meaning['type'], 'word' | 'thing' | 'figure group'>
  | 'thing'
  | 'group'
  | 'visit'
  | 'lane'
  | 'case';

/** Something that has a name of its own: declared in one place, or in several that belong together, and named in many. */
export interface Named {
  readonly sort: NamedSort;
  readonly name: string;
  /**
   * what is meant: the same in every snapshot that keeps the file's statements. Each is `sort file statement name`. Several for a verb that is
   * named where nothing says which of its actions is meant.
   */
  readonly keys: readonly string[];
  /** of a verb all actions that are in sight, else as `keys` */
  readonly family: readonly string[];
  /** none for what is built in */
  readonly declarations: readonly Place[];
}

/** A name as it stands in a file. */
export interface NamedAt extends Stretch {
  readonly named: Named;
  readonly around: Surroundings;
}

/** Whether two names stand for the same: of a verb, whether one action can be meant by both. */
export function isSame(a: Named, b: Named): boolean {
  return a.keys.some((key) => b.keys.includes(key));
}

/** The name at an offset; undefined where none stands, or where it stands for nothing known. */
export function namedAt(checked: Checked, id: FileId, offset: number): NamedAt | undefined {
  const file = checked.snapshot().file(id);
  const module = file && !file.trouble ? checked.modules().module(id) : undefined;
  if (!file || !module) return undefined;
  return namedIn(checked, file, module, pathAt(file.tree, offset), offset);
}

/** All places where a word stands in a file as a name, with what it stands for there. */
export function namesAt(checked: Checked, id: FileId, word: string): readonly NamedAt[] {
  const file = checked.snapshot().file(id);
  if (!file || file.trouble || !file.text.includes(word)) return [];
  const module = checked.modules().module(id);
  if (!module) return [];
  return placesOf(file.text, word).flatMap((at) => {
    const found = namedIn(checked, file, module, pathAt(file.tree, at), at);
    return found && found.start === at && found.end === at + word.length ? [found] : [];
  });
}

/** Where a word stands in a text, texts in quotes and remarks included. */
export function placesOf(text: string, word: string): readonly number[] {
  const found: number[] = [];
  for (let at = text.indexOf(word); at >= 0; at = text.indexOf(word, at + word.length))
    if (!PART.test(text.charAt(at - 1)) && !PART.test(text.charAt(at + word.length))) found.push(at);
  return found;
}

const PART = /[\p{L}\p{N}_]/u;

function namedIn(
  checked: Checked,
  file: SourceFile,
  module: Module,
  path: readonly Placed[],
  offset: number,
): NamedAt | undefined {
  const innermost = path.at(-1);
  if (!innermost) return undefined;
  const around = surroundingsUnchecked(checked, file, module, path);
  const at = offset - innermost.start;
  const place = (span: { readonly start: number; readonly end: number }) => ({
    file: file.id,
    start: innermost.start + span.start,
    end: innermost.start + span.end,
  });
  const own = labelled(module.id, innermost.statement);
  if (own && own.span.start <= at && at <= own.span.end) return { ...place(own.span), named: own.named, around };
  const here = referencesIn(around)
    .filter(({ start, end }) => start <= at && at <= end)
    .sort((a, b) => a.end - a.start - (b.end - b.start));
  for (const word of here) {
    const meaning = word.meaning();
    const named = meaning && namedOf(checked, around, meaning);
    if (named) return { ...place(word), named, around };
  }
  return undefined;
}

/** Visits, lanes and cases have names that no other line asks for. */
function labelled(file: FileId, statement: Statement) {
  if (statement.type !== 'visit' && statement.type !== 'lane' && statement.type !== 'case') return undefined;
  const { name, type } = statement;
  return name && { span: name, named: one(type, file, statement, name.text, [placeOf(file, statement, name)]) };
}

/** What a meaning is named; undefined for what has no name of its own. */
function namedOf(checked: Checked, around: Surroundings, meaning: Meaning): Named | undefined {
  const declarations = () => declarationsOf(meaning);
  const declared = (sort: NamedSort, { file, statement }: Declared<Statement>, name: string) =>
    one(sort, file, statement, name, declarations());
  switch (meaning.type) {
    case 'kind':
      return declared('kind', meaning.kind, meaning.kind.name);
    case 'entry':
      return declared('entry', meaning.entry, meaning.entry.name);
    case 'actions': {
      const { verb, actions, chosen } = meaning;
      const key = (action: Action | Procedure) => keyOf('actions', action.file, action.statement.id, verb);
      const family = actions.map(key);
      return {
        sort: 'actions',
        name: verb,
        keys: chosen ? [key(chosen)] : family,
        family,
        declarations: declarations(),
      };
    }
    case 'rule':
      return declared('rule', meaning.rule, meaning.rule.name);
    case 'source':
      return meaning.source
        ? declared('source', meaning.source, meaning.name)
        : {
            sort: 'source',
            name: meaning.name,
            keys: [`source built-in ${meaning.name}`],
            family: [],
            declarations: [],
          };
    case 'finding':
      return declared('finding', meaning.finding, meaning.finding.name);
    case 'finding value':
      return declared('finding value', meaning.finding, meaning.value);
    case 'pause':
      return declared('pause', meaning.pause, meaning.pause.name);
    case 'protocol':
      return declared('protocol', meaning.declared, meaning.declared.statement.name?.text ?? '');
    case 'figures':
      return declared('figures', meaning.set, meaning.set.name);
    case 'unit': {
      const place = meaning.declared;
      const keys = [keyOf('unit', place?.file ?? '', place?.statement ?? 0, place ? '' : meaning.spelling)];
      return { sort: 'unit', name: meaning.spelling, keys, family: keys, declarations: declarations() };
    }
    case 'thing': {
      const { thing, file } = meaning;
      // Listed by its own name it is what the catalogue has; a place need not be listed at all.
      if (thing.statement?.kind) return one('thing', file, thing.statement, thing.name, declarations());
      const { entry, kind } = thing;
      return namedOf(checked, around, entry ? { type: 'entry', entry } : { type: 'kind', kind });
    }
    case 'property': {
      const { name } = meaning.property;
      const kind = topmost(meaning.kind, (other) => other.properties.has(name));
      const property = kind.properties.get(name) ?? meaning.property;
      return one('property', kind.file, kind.statement, name, declarationsOf({ ...meaning, kind, property }));
    }
    case 'state': {
      const { state } = meaning;
      const kind = topmost(meaning.kind, ({ tracks }) => tracks.some((track) => track.states.has(state)));
      return one('state', kind.file, kind.statement, state, declarationsOf({ ...meaning, kind }));
    }
    case 'relation value': {
      const { relation, value } = meaning;
      const kind = topmost(meaning.kind, (other) => other.relations[relation].has(value));
      return one(
        'relation value',
        kind.file,
        kind.statement,
        `${relation} ${value}`,
        declarationsOf({ ...meaning, kind }),
        value,
      );
    }
    case 'slot':
      return slotNamed(checked, around, meaning);
    case 'figure group': {
      const keys = [`group ${meaning.group}`];
      return { sort: 'group', name: meaning.group, keys, family: keys, declarations: declarations() };
    }
    case 'file': {
      const keys = [`file ${meaning.id}`];
      return { sort: 'file', name: meaning.id, keys, family: keys, declarations: declarations() };
    }
    case 'word':
      return undefined;
    default:
      return meaning satisfies never;
  }
}

/** In a rule the same name stands for the same thing in each of its lines. A slot without a name goes by that of its kind. */
function slotNamed(
  checked: Checked,
  around: Surroundings,
  { slot, place }: Extract<Meaning, { type: 'slot' }>,
): Named | undefined {
  const top = around.path[0]?.statement;
  if (top?.type !== 'action' && top?.type !== 'procedure' && top?.type !== 'rule') return undefined;
  const alike = slotsOf(around.module, top).filter(({ node }) => node.name?.text === slot.name);
  if (alike.length === 0)
    return slot.accepts.type === 'kind'
      ? namedOf(checked, around, { type: 'kind', kind: slot.accepts.kind })
      : undefined;
  const declarations = alike.map(({ statement, node }) => placeOf(place.file, statement, node.name ?? node));
  return one('slot', place.file, top, slot.name, declarations);
}

/** The highest of the kinds above one, itself included, that has something: there it is declared. */
function topmost(kind: Kind, has: (kind: Kind) => boolean): Kind {
  let top = kind;
  for (let above = kind.parent; above && has(above); above = above.parent) top = above;
  return top;
}

function one(
  sort: NamedSort,
  file: FileId,
  { id }: Statement,
  known: string,
  declarations: readonly Place[],
  name = known,
): Named {
  const keys = [keyOf(sort, file, id, known)];
  return { sort, name, keys, family: keys, declarations };
}

function keyOf(sort: NamedSort, file: FileId, statement: number, name: string): string {
  return `${sort}\n${file}\n${statement}\n${name}`;
}

/** The file that declares what a key stands for; empty where none does. */
export function fileOfKey(key: string): FileId {
  return key.split('\n')[1] ?? '';
}

/** The key that something has once its name is another. */
export function renamedKey(key: string, from: string, to: string): string {
  return key.endsWith(from) ? key.slice(0, -from.length) + to : key;
}
