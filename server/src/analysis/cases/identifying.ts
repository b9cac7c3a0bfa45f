import type { CaseStatement } from '@curette/grammar';
import { looksLikeIdentifier } from '../../problems/looks_like_identifier.ts';
import { type Problem, problemAt } from '../../problems/problem.ts';
import { placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';
import { once } from '../once.ts';
import type { Snapshot, SourceFile } from '../snapshot.ts';
import { EVERYDAY } from './everyday.ts';
import { type Found, identifiersIn } from './identifiers.ts';

/**
 * What in a case gives its patient away: its name, label, texts and remarks, those before it and behind it included. Nothing of it is
 * remembered, since remarks are in no tree.
 * @param start where the statement starts in its file
 * @param from where what stands before it begins
 * @param to where what belongs to it ends
 */
export function checkIdentifying(
  module: Module,
  file: SourceFile,
  snapshot: Snapshot,
  statement: CaseStatement,
  stretch: { readonly start: number; readonly from: number; readonly to: number },
): readonly Problem[] {
  const { name } = statement;
  const words = once(() => vocabulary(module, snapshot));
  const known = (word: string) => EVERYDAY.has(word) || words().some((list) => list.has(word));
  const problems: Problem[] = [];
  const tell = (
    found: Found,
    mend: { readonly start: number; readonly end: number; readonly text: string } | undefined,
  ) => {
    const at = (start: number, end: number) =>
      placeOf(module.id, statement, { start: start - stretch.start, end: end - stretch.start });
    problems.push(
      problemAt(looksLikeIdentifier, at(found.start, found.end), {
        what: found.what,
        sure: found.sure,
        mend: mend && { place: at(mend.start, mend.end), text: mend.text },
      }),
    );
  };
  for (const part of partsOf(file.text.slice(stretch.from, stretch.to))) {
    const base = stretch.from + part.start;
    const named = part.type === 'code' ? figuresIn(part.text) : identifiersIn(part.text, known);
    for (const one of named) {
      const found = { ...one, start: base + one.start, end: base + one.end };
      // The name is looked at by itself.
      if (name && found.start < stretch.start + name.end && stretch.start + name.start < found.end) continue;
      tell(found, part.type === 'code' ? undefined : takenOut(file.text, found, part.type === 'text'));
    }
  }
  if (name) {
    const { start, end, text } = name;
    const what = identifierInName(text);
    if (what)
      tell(
        { what, sure: true, start: stretch.start + start, end: stretch.start + end },
        { start: stretch.start + start, end: stretch.start + end, text: 'case_1' },
      );
  }
  return problems;
}

/** The text without it; with its quotation marks when it is all that stands between them. */
function takenOut(text: string, { start, end }: Found, quoted: boolean): { start: number; end: number; text: string } {
  const whole = quoted && /["“”]/.test(text.charAt(start - 1)) && /["“”]/.test(text.charAt(end));
  const from = whole ? start - 1 : start;
  return { start: text.charAt(from - 1) === ' ' ? from - 1 : from, end: whole ? end + 1 : end, text: '' };
}

interface Part {
  readonly type: 'text' | 'remark' | 'code';
  readonly start: number;
  readonly text: string;
}

/** Remarks, texts in quotation marks without these, and what is left. */
function partsOf(text: string): Part[] {
  return [...text.matchAll(/\/\/[^\n]*|["“”](?:\\.|[^"“”\\\n])*["“”]?|[^"“”/]+|\//g)].map(
    ({ 0: written, index }): Part => {
      if (written.startsWith('//')) return { type: 'remark', start: index, text: written };
      if (/^["“”]/.test(written))
        return { type: 'text', start: index + 1, text: written.slice(1).replace(/["“”]$/, '') };
      return { type: 'code', start: index, text: written };
    },
  );
}

/** Between texts and remarks stand names and measures: there only a day that is not the first visit's, a long number and an address are. */
function figuresIn(text: string): Found[] {
  return identifiersIn(text, () => true).filter(({ what, start }) => {
    if (what === 'name' || what === 'telephone') return false;
    return !/(?:^|[\s{,])start\s+$/.test(text.slice(0, start));
  });
}

/** `mrs_weber`, `AnnaWeber`, `patient_4711008`; what is written in small letters says of itself only that it is a name. */
function identifierInName(name: string): Found['what'] | undefined {
  if (/\d{6,}/.test(name)) return 'number';
  if (/(?:^|_)(?:mr|mrs|ms|miss|herr|frau)_\p{L}/iu.test(name)) return 'name';
  return /^\p{Lu}\p{Ll}{2,}_?\p{Lu}\p{Ll}{2,}$/u.test(name) ? 'name' : undefined;
}

/** Words in small letters in all files that a case reaches, its own aside: there somebody's name could stand in small letters. */
function vocabulary(module: Module, snapshot: Snapshot): ReadonlySet<string>[] {
  const own = module.closure.map((scope) => scope.id).filter((id) => id !== module.id);
  return [...new Set([...snapshot.library, ...own])].flatMap((id) => {
    const file = snapshot.file(id);
    return file ? [wordsOf(file)] : [];
  });
}

const words = new WeakMap<SourceFile, ReadonlySet<string>>();

function wordsOf(file: SourceFile): ReadonlySet<string> {
  const known = words.get(file);
  if (known) return known;
  const list = new Set([...file.text.matchAll(/(?<![\p{L}])\p{Ll}{2,}(?![\p{L}])/gu)].map(([word]) => word));
  words.set(file, list);
  return list;
}
