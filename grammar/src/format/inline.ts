import { textOf } from './fill.ts';
import type { Block } from './lines.ts';

/** A block on one line. */
export function inlineText({ lines }: Block): string {
  const texts = lines.map((line) => {
    if (line.type === 'comment') return line.text;
    return line.block === undefined ? textOf(line.words) : `${textOf(line.words)} ${inlineText(line.block)}`;
  });
  return texts.length === 0 ? '{ }' : `{ ${texts.join(', ')} }`;
}
