import { forEachStatement, type Text } from '@curette/grammar';
import { isLibrary, resolveUse, usePathTo } from '../analysis/use-path.ts';
import type { FileId } from '../problems/problem.ts';
import type { Checked } from './checked.ts';

/** Words of a file that lead somewhere: to a file that it uses, or to where a source is published. */
export interface DocumentLink {
  readonly start: number;
  readonly end: number;
  readonly tooltip: string;
  readonly target:
    | { readonly type: 'file'; readonly id: FileId }
    /** an address that begins with `https://` */
    | { readonly type: 'page'; readonly address: string };
}

/** The links of a file. What a protocol says is data: of a source only an identifier that is a DOI, or an address of https, becomes one. */
export function documentLinks(checked: Checked, id: FileId): readonly DocumentLink[] {
  const snapshot = checked.snapshot();
  const file = snapshot.file(id);
  if (!file || file.trouble) return [];
  const links: DocumentLink[] = [];
  forEachStatement(file.tree, (statement, start, parents) => {
    switch (statement.type) {
      case 'use': {
        const { path } = statement;
        const target = path && resolveUse(id, path.text);
        if (!path || !target?.ok || !snapshot.file(target.id)) return false;
        const where = isLibrary(target.id)
          ? `Opens ${usePathTo(id, target.id)} of the shipped library`
          : `Opens ${plain(target.id)}`;
        links.push({
          start: start + path.start,
          end: start + path.end,
          tooltip: where,
          target: { type: 'file', id: target.id },
        });
        return false;
      }
      case 'source':
        return true;
      case 'value': {
        if (parents.at(-1)?.statement.type !== 'source' || statement.name.text !== 'identifier') return false;
        for (const value of statement.values)
          if (value.type === 'text') links.push(...linksIn(value, start, file.text));
        return false;
      }
      default:
        return false;
    }
  });
  return links;
}

/** The path of a file, without the mark of the folder that it is in. */
function plain(id: FileId): string {
  return id.slice(id.indexOf(':') + 1);
}

/** A DOI as the handbook of the DOI Foundation has them: a registrant behind `10.`, a slash, a name without blanks. */
const DOI = /(?<![^\s"(,;:/])10\.\d{4,9}(?:\.\d+)*\/(?:(?!["<>\\])[!-~])+/g;
const ADDRESS = /(?<![^\s"(,;])https:\/\/(?:(?!["<>\\])[!-~])+/g;

function linksIn(value: Text, base: number, text: string): DocumentLink[] {
  const from = base + value.start;
  const written = text.slice(from, base + value.end);
  const links: DocumentLink[] = [];
  for (const { index, 0: found } of written.matchAll(ADDRESS)) {
    const shown = withoutPunctuation(found);
    const address = safeAddress(shown);
    if (address !== undefined) links.push(page(from + index, shown, address));
  }
  for (const { index, 0: found } of written.matchAll(DOI)) {
    const start = from + index;
    const doi = withoutPunctuation(found);
    if (links.some((other) => other.start <= start && start < other.end)) continue;
    const address = safeAddress(`https://doi.org/${doi.split('/').map(encodeURIComponent).join('/')}`);
    if (address !== undefined) links.push(page(start, doi, address));
  }
  return links.sort((a, b) => a.start - b.start);
}

function page(start: number, shown: string, address: string): DocumentLink {
  return { start, end: start + shown.length, tooltip: `Opens ${address}`, target: { type: 'page', address } };
}

/** What ends a sentence or a bracket around the words is no part of them. */
function withoutPunctuation(found: string): string {
  const bare = found.replace(/[.,;:'’]+$/, '');
  return bare.endsWith(')') && !bare.includes('(') ? bare.slice(0, -1) : bare;
}

/** As the browser will read it; undefined unless it is plain https, without a name and password in it. */
function safeAddress(written: string): string | undefined {
  const parts = /^https:\/\/([A-Za-z0-9.-]+)(:\d{1,5})?(\/.*|\?.*|#.*)?$/.exec(written);
  return parts?.[1]?.includes('.') ? written : undefined;
}
