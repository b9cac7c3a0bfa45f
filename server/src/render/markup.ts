import { visible } from './text.ts';

/** Text that is HTML already. Only `html` makes it, so nothing that was not written here is markup. */
export interface Markup {
  readonly markup: string;
}

export type Piece = Markup | string | number | null | undefined | false | readonly Piece[];

/** A template whose values are shown as text, whatever they hold; pieces that are markup stand as they are. */
export function html(literal: TemplateStringsArray, ...pieces: readonly Piece[]): Markup {
  let markup = literal[0] ?? '';
  pieces.forEach((piece, i) => {
    markup += shown(piece) + (literal[i + 1] ?? '');
  });
  return { markup };
}

/**
 * Where a part of a page stands in the text that it is made from; a reader beside the text can go there.
 * @param file its name, where it is another than the one that declares the protocol
 */
export function atLine(line: number | null, file?: string): Piece {
  return line !== null && html` data-line="${line}"${file !== undefined && html` data-file="${file}"`}`;
}

function shown(piece: Piece): string {
  if (piece === null || piece === undefined || piece === false) return '';
  if (typeof piece === 'string') return escapeHtml(piece);
  if (typeof piece === 'number') return String(piece);
  return 'markup' in piece ? piece.markup : piece.map(shown).join('');
}

function escapeHtml(text: string): string {
  // Line ends are ordinary spaces on a page; whatever else does not show is made to.
  return visible(text.replace(/[\r\n\t]+/g, ' ')).replace(/[&<>"'`]/g, (character) => ESCAPES[character] ?? character);
}

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
  '`': '&#96;',
};
