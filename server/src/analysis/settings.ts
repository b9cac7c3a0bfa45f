import { NO_SETTINGS, type Settings, type SettingsFault, settingsFile } from '@curette/shared';
import { findNodeAtLocation, type Node, type ParseError, parseTree, printParseErrorCode } from 'jsonc-parser';
import type * as z from 'zod';
import { badSettings, type SettingsTrouble } from '../problems/bad_settings.ts';
import { type FileId, type Place, problemAt, type Report } from '../problems/problem.ts';
import type { Snapshot, SourceFile } from './snapshot.ts';
import { rootOf } from './use-path.ts';

/** The file in which a workspace says what its protocols have to know of the place where they are carried out. */
export const SETTINGS_NAME = 'curette.json';

export function isSettings(id: FileId): boolean {
  return id.slice(rootOf(id).length).split('/').at(-1) === SETTINGS_NAME;
}

/** The settings file that counts for a file: in its own folder, or in the nearest folder above that has one; undefined when none has. */
export function settingsFileOf(snapshot: Snapshot, id: FileId): SourceFile | undefined {
  const root = rootOf(id);
  const folders = id.slice(root.length).split('/').slice(0, -1);
  for (let depth = folders.length; depth >= 0; depth--) {
    const path = [...folders.slice(0, depth), SETTINGS_NAME].join('/');
    const file = snapshot.file(`${root}${path}`);
    if (file) return file;
  }
  return undefined;
}

/** The settings that count for a file. What is wrong in a settings file is told there; what is right in it counts. */
export function settingsOf(snapshot: Snapshot, id: FileId): Settings {
  const file = settingsFileOf(snapshot, id);
  return file ? readSettings(file).settings : NO_SETTINGS;
}

/** What is wrong with a settings file. */
export function checkSettings(file: SourceFile, report: Report): void {
  for (const { place, trouble } of readSettings(file).troubles) report(problemAt(badSettings, place, trouble));
}

interface ReadSettings {
  readonly settings: Settings;
  readonly troubles: readonly { readonly place: Place; readonly trouble: SettingsTrouble }[];
}

/** A list of closed days is a few hundred lines at most. Characters. */
const LARGEST = 1_000_000;

const known = new WeakMap<SourceFile, ReadSettings>();

function readSettings(file: SourceFile): ReadSettings {
  const before = known.get(file);
  if (before) return before;
  const read = readAgain(file);
  known.set(file, read);
  return read;
}

function readAgain(file: SourceFile): ReadSettings {
  const place = (start: number, end: number): Place => ({ file: file.id, statement: 0, span: { start, end } });
  const nothing = (trouble: SettingsTrouble): ReadSettings => ({
    settings: NO_SETTINGS,
    troubles: [{ place: place(0, 0), trouble }],
  });
  if (file.trouble) return nothing({ type: 'unusable', why: file.trouble });
  if (file.text.length > LARGEST) return nothing({ type: 'unusable', why: 'too large' });
  if (file.text.trim() === '') return nothing({ type: 'unusable', why: 'empty' });
  const errors: ParseError[] = [];
  const tree = parsed(file.text, errors);
  if (tree === 'too deep') return nothing({ type: 'unusable', why: 'too deep' });

  const troubles: { place: Place; trouble: SettingsTrouble }[] = [];
  const [first] = errors;
  if (first) {
    const end = Math.min(first.offset + Math.max(1, first.length), file.text.length);
    troubles.push({
      place: place(Math.min(first.offset, file.text.length), end),
      trouble: { type: 'not JSON', expects: printParseErrorCode(first.error) },
    });
  }
  if (!tree) return { settings: NO_SETTINGS, troubles };

  // What is wrong is left out, and the rest is read again.
  const left = new Set<Node>();
  const tell = (node: Node, trouble: SettingsTrouble, shown: Node = node) => {
    if (left.has(node)) return;
    left.add(node);
    troubles.push({ place: place(shown.offset, shown.offset + shown.length), trouble });
  };
  for (const { property, key } of repeatedKeys(tree)) tell(property, { type: 'twice', key: String(key.value) }, key);
  for (;;) {
    const told = left.size;
    const result = settingsFile.safeParse(writtenIn(tree, left));
    if (result.success) return { settings: result.data, troubles };
    const before: ReadonlySet<Node> = new Set(left);
    for (const issue of result.error.issues) tellIssue(tree, before, issue, tell, place);
    if (left.size === told) return { settings: NO_SETTINGS, troubles };
  }
}

type Tell = (node: Node, trouble: SettingsTrouble, shown?: Node) => void;

function tellIssue(
  tree: Node,
  left: ReadonlySet<Node>,
  issue: z.core.$ZodIssue,
  tell: Tell,
  place: (start: number, end: number) => Place,
): void {
  const node = nodeAt(tree, left, issue.path) ?? tree;
  if (issue.code !== 'unrecognized_keys') {
    tell(node, troubleOf(issue, String(node.value), place(node.offset, node.offset + node.length)));
    return;
  }
  for (const key of issue.keys) {
    const property = node.children?.find((child) => child.children?.[0]?.value === key && !left.has(child));
    const name = property?.children?.[0];
    if (!property || !name) continue;
    const inQuotes = place(name.offset + 1, name.offset + name.length - 1);
    tell(property, { type: 'unknown key', key, inside: pathOf(issue), place: inQuotes }, name);
  }
}

function troubleOf(issue: z.core.$ZodIssue, value: string, place: Place): SettingsTrouble {
  switch (issue.code) {
    case 'invalid_value':
      return { type: 'no weekday', value, place };
    case 'custom': {
      const fault: SettingsFault | undefined = issue.params?.fault;
      if (fault === 'always closed') return { type: 'always closed' };
      return { type: fault === 'reversed' ? 'reversed' : 'no date', value, place };
    }
    case 'invalid_type':
      return { type: 'wrong form', path: pathOf(issue), wanted: formOf(issue.expected) };
    default:
      return { type: 'wrong form', path: pathOf(issue), wanted: 'something else' };
  }
}

function pathOf(issue: z.core.$ZodIssue): string {
  return issue.path.filter((part) => typeof part === 'string').join('.');
}

function formOf(expected: string): 'a list' | 'a text' | 'a group' | 'something else' {
  switch (expected) {
    case 'array':
      return 'a list';
    case 'string':
      return 'a text';
    case 'object':
      return 'a group';
    default:
      return 'something else';
  }
}

function parsed(text: string, errors: ParseError[]): Node | undefined | 'too deep' {
  try {
    return parseTree(text, errors, { disallowComments: true, allowTrailingComma: false, allowEmptyContent: false });
  } catch (error) {
    if (error instanceof RangeError) return 'too deep';
    throw error;
  }
}

/** A key that stands twice in its braces: of the two only the later would count, and nobody would know. */
function* repeatedKeys(node: Node): Generator<{ readonly property: Node; readonly key: Node }> {
  const seen = new Set<unknown>();
  for (const child of node.children ?? []) {
    const [key] = child.children ?? [];
    if (node.type === 'object' && key) {
      if (seen.has(key.value)) yield { property: child, key };
      seen.add(key.value);
    }
    yield* repeatedKeys(child);
  }
}

/** What is written, without the parts that are left out. */
function writtenIn(node: Node, left: ReadonlySet<Node>): unknown {
  const children = (node.children ?? []).filter((child) => !left.has(child));
  switch (node.type) {
    case 'array':
      return children.map((child) => writtenIn(child, left));
    case 'object':
      return Object.fromEntries(
        children.flatMap((property) => {
          const [key, value] = property.children ?? [];
          return key && value && !left.has(value) ? [[String(key.value), writtenIn(value, left)]] : [];
        }),
      );
    default:
      return node.value;
  }
}

/** The part of the text that a path leads to; positions in a list count what is not left out. */
function nodeAt(tree: Node, left: ReadonlySet<Node>, path: readonly PropertyKey[]): Node | undefined {
  let node: Node | undefined = tree;
  for (const step of path)
    node =
      typeof step === 'number'
        ? node?.children?.filter((child) => !left.has(child))[step]
        : node && findNodeAtLocation(node, [String(step)]);
  return node;
}
