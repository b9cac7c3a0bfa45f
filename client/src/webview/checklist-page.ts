import type { ToPage } from './messages.ts';

/**
 * The script of the checklist's page: puts each page it receives in place of the last one, and keeps the reader where
 * they were. Scripts, handlers and styles by attribute inside a received page do not run: the frame's policy forbids them.
 */
declare function acquireVsCodeApi(): { postMessage(message: unknown): void };

const sheet = new CSSStyleSheet();
document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
/** Stands until the next page that can be shown; the last good page stays readable below it. */
const failure = document.createElement('p');
failure.setAttribute('role', 'alert');
const page = document.createElement('div');
document.body.append(failure, page);
failure.hidden = true;

window.addEventListener('message', ({ data }: MessageEvent<ToPage>) => {
  switch (data.kind) {
    case 'page':
      return show(data.html);
    case 'failure':
      failure.textContent = data.text;
      failure.hidden = false;
      return;
    default:
      return data satisfies never;
  }
});
acquireVsCodeApi().postMessage('ready');

function show(html: string): void {
  const received = new DOMParser().parseFromString(html, 'text/html');
  const styles = [...received.querySelectorAll('style')];
  const top = document.documentElement.scrollTop;
  failure.hidden = true;
  // A sheet made here, since the policy refuses a style element that came with the page.
  sheet.replaceSync(styles.map((style) => style.textContent).join('\n'));
  for (const style of styles) style.remove();
  document.documentElement.lang = received.documentElement.lang || 'en';
  document.body.className = received.body.className;
  page.replaceChildren(...received.body.childNodes);
  document.documentElement.scrollTop = top;
}
