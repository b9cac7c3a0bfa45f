import { visible } from './text.ts';

/**
 * A text in which nothing is markup: line ends are spaces, every sign that could begin some is escaped, and so is what would make a
 * heading, a list or a quotation at the beginning of a line, or a link of an address.
 */
export function safe(text: string): string {
  return visible(text.replace(/\s+/g, ' ').trim())
    .replace(/[\\`*_[\]<>&~|$@^]|(?<=\bwww)\.|:(?=\/\/)/gi, '\\$&')
    .replace(/^(?:[#+=-]|\d+(?=[.)]))/, (start) => (/\d/.test(start) ? `${start}\\` : `\\${start}`));
}
