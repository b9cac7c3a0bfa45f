import { sha256 } from '@noble/hashes/sha2';
import { utf8ToBytes } from '@noble/hashes/utils';
import { base64 } from '@scure/base';
import { html, type Markup, type Piece } from './markup.ts';
import { sheetStyle } from './sheet-style.ts';
import { unfitWords, versionWords } from './sheet-words.ts';

/** What stands on every sheet made from a protocol, whatever it shows of it. */
export interface SheetHead {
  readonly title: string;
  readonly version: string | null;
  readonly status: string | null;
  readonly fit: boolean;
  readonly errors: number;
}

/**
 * A sheet as one HTML page that needs nothing else: no script, no other file, and a policy that lets nothing run or load. On
 * paper every page of it says what it belongs to, and whether that is fit for use.
 * @param styles of what the content brings with it, in `style` elements of its own
 */
export function sheetPage(head: SheetHead, content: Markup, styles: readonly string[] = []): string {
  const hashes = [sheetStyle, ...styles].map((style) => `'sha256-${base64.encode(sha256(utf8ToBytes(style)))}'`);
  const policy = `default-src 'none'; style-src ${hashes.join(' ')}; base-uri 'none'; form-action 'none'`;
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>${head.title}${head.version && `, version ${head.version}`}${!head.fit && ' — not fit for use'}</title>
<style>${{ markup: sheetStyle }}</style>
</head>
<body class="sheet">
${!head.fit && html`<p class="banner" role="status">Not fit for use: ${unfitWords(head)}</p>`}
<table class="frame" role="presentation">
<thead aria-hidden="true"><tr><td>${running(head)}</td></tr></thead>
<tbody><tr><td><div class="page">
${content}
</div></td></tr></tbody>
</table>
</body>
</html>
`.markup;
}

/** The head of a page on screen and of the first one on paper. */
export function sheetTitle(what: string, title: string, summary: string | null): Markup {
  return html`<div class="title">
<p class="kicker">${what}</p>
<h1>${title}</h1>
${summary && html`<p class="summary">${summary}</p>`}
</div>`;
}

export function fact(name: string, value: string | null): Piece {
  return value !== null && value !== '' && html`<div><dt>${name}</dt><dd>${value}</dd></div>`;
}

/** Stands on every printed page. */
function running(head: SheetHead): Markup {
  return html`<div class="running"><span class="what">${head.title}</span><span>${versionWords(head)}</span>${marks(head)}</div>`;
}

function marks(head: SheetHead): Piece {
  return [
    head.status !== null && head.status !== 'approved' && html`<span class="mark">${head.status.toUpperCase()}</span>`,
    !head.fit && html` <span class="mark unfit">NOT FIT FOR USE</span>`,
  ];
}
