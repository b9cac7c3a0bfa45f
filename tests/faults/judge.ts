/** Makes an edit in the demo workspace, asks the checker what is new, and takes the edit back. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, posix } from 'node:path';
import { createWorkspace, diagnostics, type Severity } from '@curette/server';
import type { Edit, Fault } from './edit.ts';

/** A problem that was not there before the edit. */
export interface Told {
  readonly file: string;
  /** from 1 */
  readonly line: number;
  readonly severity: Severity;
  /** name of the rule, or code of the problem */
  readonly name: string;
  readonly message: string;
}

export interface Judge {
  /** the sound protocols and what they use, as paths from the demo workspace */
  readonly files: readonly string[];
  /** errors and warnings of the files as they are */
  readonly before: readonly Told[];
  /** what an edit adds, in all files; throws when the edit does not fit its file */
  readonly after: (edit: Edit) => readonly Told[];
  /** whether the mistake is told where it stands; one without a `problem` is told by any error or warning, anywhere */
  readonly caught: (fault: Fault, told: readonly Told[]) => boolean;
}

const examples = join(import.meta.dirname, '../../examples');
// Dates and reviews are judged against a day that stays.
const TODAY = '2026-03-01';

export function createJudge(): Judge {
  const all = readdirSync(examples, { recursive: true, encoding: 'utf8' }).filter((name) =>
    /\.(curette|json)$/.test(name),
  );
  const files = all.filter((name) => name.endsWith('.curette') && !name.startsWith('drafts/')).sort();
  const texts = new Map(files.map((file) => [file, readFileSync(join(examples, file), 'utf8')]));
  const workspace = createWorkspace(
    (id) => (all.includes(id) ? { type: 'bytes', bytes: readFileSync(join(examples, id)) } : { type: 'absent' }),
    () => TODAY,
  );
  for (const [file, text] of texts) workspace.open(file, text);
  const toldIn = (file: string): readonly Told[] => {
    const text = workspace.snapshot().file(file)?.text ?? '';
    return diagnostics(workspace, file).map(({ start, severity, name, message }) => ({
      file,
      line: text.slice(0, start).split('\n').length,
      severity,
      name,
      message,
    }));
  };
  const sound = new Map(files.map((file) => [file, toldIn(file)]));

  return {
    files,
    before: [...sound.values()].flat().filter(counts),
    after: (edit) => {
      const text = texts.get(edit.file);
      if (text === undefined) throw new Error(`"${edit.name}": there is no ${edit.file}`);
      const changed = edited(text, edit);
      workspace.change(edit.file, [{ ...stretchBetween(text, changed), whole: changed }]);
      try {
        return reachedFrom(edit.file, texts).flatMap((file) => newIn(toldIn(file), sound.get(file) ?? []));
      } finally {
        workspace.change(edit.file, [{ ...stretchBetween(changed, text), whole: text }]);
      }
    },
    caught: (fault, told) => {
      if (fault.problem === undefined) return told.some(counts);
      const file = fault.in ?? fault.file;
      const line = lineOf(fault, textAfter(fault, file));
      return told.some((found) => found.name === fault.problem && found.file === file && found.line === line);
    },
  };

  function textAfter(edit: Edit, file: string): string {
    const text = texts.get(file) ?? '';
    return file === edit.file ? edited(text, edit) : text;
  }
}

/** Whether it is an error or a warning: advice is welcome beside a harmless edit, and does not stop a mistake. */
export function counts(told: Told): boolean {
  return told.severity !== 'advice';
}

/** A file and those that use it, themselves or by way of others. */
function reachedFrom(changed: string, texts: ReadonlyMap<string, string>): readonly string[] {
  const reached = new Set([changed]);
  // What is added while it is gone through is gone through as well.
  for (const used of reached)
    for (const [file, text] of texts)
      for (const [, path = ''] of text.matchAll(/^use (\.\S+)/gm))
        if (posix.join(posix.dirname(file), `${path}.curette`) === used) reached.add(file);
  return [...reached];
}

/** What is told now and was not before, wherever lines have moved to. */
function newIn(now: readonly Told[], before: readonly Told[]): readonly Told[] {
  const left = before.map(keyOf);
  return now.filter((told) => {
    const known = left.indexOf(keyOf(told));
    if (known >= 0) left.splice(known, 1);
    return known < 0;
  });
}

function keyOf({ file, name, severity, message }: Told): string {
  return [file, name, severity, message].join('\n');
}

/** The text after an edit. */
function edited(text: string, edit: Edit): string {
  return [edit, ...(edit.also ?? [])].reduce((now, { find, replace }) => {
    const start = onlyPlaceOf(find, now, edit);
    return now.slice(0, start) + replace + now.slice(start + find.length);
  }, text);
}

/** The change that leads from one text to another, without what they have in common at both ends. */
function stretchBetween(before: string, after: string): { start: number; end: number; text: string } {
  const shorter = Math.min(before.length, after.length);
  let start = 0;
  while (start < shorter && before[start] === after[start]) start++;
  let tail = 0;
  while (tail < shorter - start && before.at(-1 - tail) === after.at(-1 - tail)) tail++;
  return { start, end: before.length - tail, text: after.slice(start, after.length - tail) };
}

/** The line of the words that a fault's problem stands on, from 1. */
function lineOf(fault: Fault, text: string): number {
  const marked = fault.on.indexOf('»');
  const words = fault.on.replace('»', '');
  const start = onlyPlaceOf(words, text, fault);
  return text.slice(0, start + (marked >= 0 ? marked + 1 : words.length)).split('\n').length;
}

function onlyPlaceOf(words: string, text: string, edit: Edit): number {
  const start = text.indexOf(words);
  if (start < 0) throw new Error(`"${edit.name}": this does not stand in the file: ${words}`);
  if (text.indexOf(words, start + 1) >= 0)
    throw new Error(`"${edit.name}": this stands there more than once: ${words}`);
  return start;
}
