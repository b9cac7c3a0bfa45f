import type { Checklist, ChecklistItem, ChecklistProblem } from '@curette/shared';

/** Stands on every sheet. */
export const CAUTION =
  'A drafting and teaching aid. Local codes, product labelling and licensed practice come first. No patient identifiers on this sheet.';

/** "the checker found 3 errors." */
export function unfitWords(list: Pick<Checklist, 'errors'>): string {
  return `the checker found ${list.errors === 1 ? 'an error' : `${list.errors} errors`}.`;
}

/** "line 12", "warning, line 12 of policy.curette" */
export function whereWords(list: Checklist, problem: ChecklistProblem): string {
  const severity = problem.severity === 'error' ? '' : `${problem.severity}, `;
  const elsewhere = problem.file === list.file ? '' : problem.file;
  if (problem.line === null) return `${severity}${elsewhere}`;
  return `${severity}line ${problem.line}${elsewhere && ` of ${elsewhere}`}`;
}

/** "version 2.1.0, in review" */
export function versionWords(list: Pick<Checklist, 'version' | 'status'>): string {
  return `${list.version ? `version ${list.version}` : 'no version'}, ${list.status ?? 'no status'}`;
}

/** What all lines begin with, to be said once, and what is left of each. */
export function commonLead(texts: readonly string[]): {
  readonly lead: string | undefined;
  readonly rest: readonly string[];
} {
  const [first = ''] = texts;
  const lead = first.slice(0, first.indexOf(' '));
  if (texts.length < 2 || lead === '' || !texts.every((text) => text.startsWith(`${lead} `)))
    return { lead: undefined, rest: texts };
  return { lead, rest: texts.map((text) => text.slice(lead.length + 1)) };
}

/** The events of the main path that have a number. */
export function isNumbered(item: ChecklistItem): boolean {
  switch (item.type) {
    case 'step':
    case 'wait':
    case 'verify':
    case 'decide':
    case 'together':
    case 'repeat':
    case 'record':
      return true;
    case 'pause':
    case 'complication':
    case 'instruct':
    case 'note':
    case 'stop':
      return false;
    default:
      return item satisfies never;
  }
}
