import type { PreviewView } from '@curette/shared';
import type { CaseFacts } from '../analysis/cases/case.ts';
import { html } from './markup.ts';
import { sheetStyle } from './sheet-style.ts';

/**
 * The page that stands where a sheet would, when a file declares no protocol to make one of.
 * @param lone a case that the file declares, whose protocol was not found
 */
export function missingSheetHtml(view: PreviewView, file: string, lone: CaseFacts | undefined): string {
  const why = lone
    ? `The protocol that the case ${lone.statement.name?.text ?? ''} is of is not declared in ${file}, nor in a file that it uses.`
    : `${file} declares no protocol yet.`;
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<title>${TITLES[view]}</title>
<style>${{ markup: sheetStyle }}</style>
</head>
<body class="sheet">
<main class="page"><p>${why} ${MADE[view]}</p></main>
</body>
</html>
`.markup;
}

const TITLES: Readonly<Record<PreviewView, string>> = {
  checklist: 'No checklist',
  timeline: 'No timeline',
  tray: 'No tray',
  problems: 'No protocol',
};

const MADE: Readonly<Record<PreviewView, string>> = {
  checklist: 'A checklist is made from a protocol.',
  timeline: 'A timeline is made from a protocol.',
  tray: 'A tray is laid out for a protocol.',
  problems: 'What is wrong in the file itself stands in the editor.',
};
