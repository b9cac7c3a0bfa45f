import { sheetStyle } from './sheet-style.ts';
import { html } from './markup.ts';

/** The page that stands where a checklist would, when the document declares no protocol to make one of. */
export function missingChecklistHtml(file: string, protocol: string | undefined): string {
  const what = protocol === undefined ? 'no protocol' : `no protocol named ${protocol}`;
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<title>No checklist</title>
<style>${{ markup: sheetStyle }}</style>
</head>
<body class="sheet">
<div class="page"><p>${file} declares ${what} yet: a checklist is made from a protocol.</p></div>
</body>
</html>
`.markup;
}
