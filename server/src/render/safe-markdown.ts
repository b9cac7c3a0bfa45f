import type { SheetHead } from './sheet.ts';
import { CAUTION, unfitWords, versionWords } from './sheet-words.ts';
import { sentence, visible } from './text.ts';

/**
 * A text in which nothing is markup: line ends are spaces, every sign that could begin some is escaped, and so is what would make a
 * heading, a list or a quotation at the beginning of a line, or a link of an address.
 */
export function safe(text: string): string {
  return visible(text.replace(/\s+/g, ' ').trim())
    .replace(/[\\`*_[\]<>&~|$@^]|(?<=\bwww)\.|:(?=\/\/)/gi, '\\$&')
    .replace(/^(?:[#+=-]|\d+(?=[.)]))/, (start) => (/\d/.test(start) ? `${start}\\` : `\\${start}`));
}

/** What stands first on every sheet in Markdown: title, version and status, whether it is fit for use, and the caution. */
export function sheetLines(sheet: SheetHead, title: string): string[] {
  return [
    `# ${safe(title)}`,
    '',
    `**${safe(sentence(versionWords(sheet)))}**${sheet.fit ? '' : ` · **NOT FIT FOR USE**: ${safe(unfitWords(sheet))}`}`,
    '',
    `> ${CAUTION}`,
    '',
  ];
}
