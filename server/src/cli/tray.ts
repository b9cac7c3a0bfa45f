import { unfitWords } from '../render/sheet-words.ts';
import { visible } from '../render/text.ts';
import { trayOf } from '../render/tray.ts';
import { trayHtml } from '../render/tray-html.ts';
import { trayMarkdown } from '../render/tray-markdown.ts';
import { openProtocol } from './declared-protocol.ts';
import { print, writeWhole } from './output.ts';

export interface TrayOptions {
  readonly protocol?: string;
  readonly case?: string;
  readonly format: 'md' | 'html' | 'json';
  readonly out?: string;
}

/** Writes what has to be laid out for each visit. Of a protocol that is not fit for use it says so, and here. @returns the exit status */
export function tray(path: string, options: TrayOptions): number {
  const { workspace, facts, protocol, ofCase } = openProtocol(path, options.protocol, options.case);
  const laid = trayOf(facts, protocol, workspace.facts, ofCase);
  const text =
    options.format === 'html'
      ? trayHtml(laid)
      : options.format === 'json'
        ? `${JSON.stringify(laid, null, 2)}\n`
        : trayMarkdown(laid);
  if (options.out === undefined) print(text);
  else writeWhole(options.out, text);
  if (!laid.fit) process.stderr.write(`${visible(laid.name)} is not fit for use: ${unfitWords(laid)}\n`);
  return 0;
}
