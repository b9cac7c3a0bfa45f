import type { FromPage, ToPage } from './messages.ts';
import { createBar } from './preview-bar.ts';
import { createLines } from './preview-lines.ts';
import { themeStyle } from './preview-theme.ts';

/**
 * The script of the preview's page: puts each page it receives in place of the last one, keeps the reader where they were, and leads
 * from a part of it to its line in the text and back. Scripts, handlers and styles by attribute inside a received page do not run: the
 * frame's policy forbids them.
 */
declare function acquireVsCodeApi(): { postMessage(message: FromPage): void; setState(state: unknown): void };

const editor = acquireVsCodeApi();
const send = (message: FromPage) => editor.postMessage(message);

const pageStyle = new CSSStyleSheet();
const ownStyle = new CSSStyleSheet();
ownStyle.replaceSync(themeStyle);
// The theme's colours come last: they stand for those that the page has on paper.
document.adoptedStyleSheets = [...document.adoptedStyleSheets, pageStyle, ownStyle];

const bar = createBar(send);
/** Stands until the next page that can be shown; the last good page stays readable below it. */
const failure = document.createElement('p');
failure.id = 'preview-failure';
failure.setAttribute('role', 'alert');
failure.hidden = true;
const page = document.createElement('div');
page.id = 'preview-page';
const panel = document.createElement('div');
panel.id = 'preview-panel';
panel.setAttribute('role', 'tabpanel');
const lines = createLines(page, send);
/** Of what the page in view is. */
let shown = '';
panel.append(lines.element, page);
document.body.append(bar.element, failure, panel);

window.addEventListener('message', ({ data }: MessageEvent<ToPage>) => {
  switch (data.kind) {
    case 'page':
      return show(data);
    case 'cursor':
      return lines.goTo(data.line);
    case 'failure':
      failure.textContent = data.text;
      failure.hidden = false;
      return;
    default:
      return data satisfies never;
  }
});
send({ kind: 'ready' });

function show(message: Extract<ToPage, { kind: 'page' }>): void {
  const received = new DOMParser().parseFromString(message.html, 'text/html');
  const styles = [...received.querySelectorAll('style')];
  const top = document.documentElement.scrollTop;
  failure.hidden = true;
  // A sheet made here, since the policy refuses a style element that came with the page.
  pageStyle.replaceSync(styles.map((style) => style.textContent).join('\n'));
  for (const style of styles) style.remove();
  document.documentElement.lang = received.documentElement.lang || 'en';
  // The editor's own classes name its theme.
  document.body.classList.add(...received.body.classList);
  // A sheet is filled in on paper, not here.
  for (const tick of received.querySelectorAll<HTMLInputElement>('input')) tick.disabled = true;
  const showing = [message.view, message.protocol, message.case, message.state.uri].join('\n');
  const isOther = showing !== shown;
  if (isOther) lines.forget();
  shown = showing;
  editor.setState(message.state);
  bar.show(message);
  panel.setAttribute('aria-labelledby', `preview-view-${message.view}`);
  page.replaceChildren(...received.body.childNodes);
  lines.layOut();
  document.documentElement.scrollTop = isOther ? 0 : top;
}
