import type { Kind } from '../../analysis/model.ts';
import type { FileId } from '../../problems/problem.ts';
import type { Checked } from '../checked.ts';
import { code, plainly } from '../markdown.ts';
import { caution, needsCaution } from './caution.ts';

/**
 * What a file says of itself in the remark that it begins with: what it holds, and what it does not cover, which stands on a line
 * of its own.
 */
export function fileHover(checked: Checked, id: FileId): string[] {
  const file = checked.snapshot().file(id);
  return [
    id.startsWith('library:') ? `${code(id.slice('library:'.length))}, a file of the shipped library` : code(id),
    ...(file ? opening(file.text) : []).map((paragraph) =>
      plainly(paragraph).replace(/\bNot covered:/, '\n\n**Not covered:**'),
    ),
    caution(declaresCautioned(checked, id)),
  ];
}

/** The paragraphs of the remark at the beginning of a text; a line with nothing behind its signs parts two of them. */
export function opening(text: string): readonly string[] {
  const lines: string[] = [];
  for (const line of text.split('\n')) {
    const remark = /^\s*\/\/(?!\/)\s?(.*)$/.exec(line);
    if (!remark) break;
    lines.push((remark[1] ?? '').trim());
  }
  return lines
    .join('\n')
    .split(/\n{2,}/)
    .map((paragraph) => paragraph.replaceAll('\n', ' ').trim())
    .filter((paragraph) => paragraph !== '');
}

/** Whether the file declares a kind that is given in doses, or that is not for everybody. */
function declaresCautioned(checked: Checked, id: FileId): boolean {
  const module = checked.modules().module(id);
  const kinds: Kind[] = [];
  for (const name of module?.scope.kinds.keys() ?? []) {
    const kind = module?.declarations.kind(name);
    if (kind) kinds.push(kind);
  }
  return kinds.some((kind) => needsCaution(kind, kind.contraindications.length));
}
