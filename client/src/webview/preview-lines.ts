import type { FromPage } from './messages.ts';
import { stepped } from './preview-bar.ts';

/** The column beside the page with the line on which each part stands in the text. */
export interface Lines {
  readonly element: HTMLElement;
  /** the page is another one, or has another width */
  readonly layOut: () => void;
  /** the cursor is on this line: the part that it stands in is marked and brought into view */
  readonly goTo: (line: number) => void;
  /** another page is shown: wherever the cursor is, its part is brought into view again */
  readonly forget: () => void;
}

interface Mark {
  readonly part: Element;
  readonly button: HTMLButtonElement;
  readonly line: number;
  /** of the file that declares what is shown */
  readonly isOwn: boolean;
}

export function createLines(page: HTMLElement, send: (message: FromPage) => void): Lines {
  const element = document.createElement('nav');
  element.id = 'preview-lines';
  element.setAttribute('aria-label', 'Lines of the text');
  const band = document.createElement('div');
  band.id = 'preview-here';
  band.hidden = true;
  let marks: readonly Mark[] = [];
  let cursor = 0;

  const open = (part: Element) => {
    const place = placeOf(part);
    if (place) send({ kind: 'open', ...place });
  };
  page.addEventListener('click', (event) => {
    const on = event.target instanceof Element ? event.target : undefined;
    const part = on?.closest('[data-line]');
    // Words that are being picked out, and links inside the page, are not a way to the text.
    if (!part || on?.closest('a[href]') || !(getSelection()?.isCollapsed ?? true)) return;
    event.preventDefault();
    open(part);
  });
  element.addEventListener('keydown', (event) => {
    const at = marks.findIndex(({ button }) => button === document.activeElement);
    const next = stepped(event.key, at, marks.length, ['ArrowUp', 'ArrowDown']);
    const mark = next === undefined ? undefined : marks[next];
    if (!mark) return;
    event.preventDefault();
    onlyStop(marks, mark);
    mark.button.focus();
  });

  /** Where the marks stand beside their parts; those that would lie on one another are one. */
  const place = () => {
    const top = element.getBoundingClientRect().top;
    let last = Number.NEGATIVE_INFINITY;
    for (const { part, button } of marks) {
      const at = part.getBoundingClientRect().top - top;
      const isFree = at - last >= 12;
      button.hidden = !isFree && button !== document.activeElement;
      if (!button.hidden) last = at;
      button.style.top = `${at}px`;
    }
    markCursor(false);
  };

  const markCursor = (bring: boolean) => {
    const here = marks.filter(({ isOwn, line }) => isOwn && line <= cursor).sort((a, b) => b.line - a.line)[0];
    band.hidden = !here;
    for (const { button } of marks) button.removeAttribute('aria-current');
    if (!here) return;
    here.button.setAttribute('aria-current', 'true');
    const box = here.part.getBoundingClientRect();
    band.style.top = `${box.top - element.getBoundingClientRect().top}px`;
    band.style.height = `${box.height}px`;
    if (bring && (box.top < 60 || box.top > innerHeight - 60)) here.part.scrollIntoView({ block: 'center' });
  };

  const layOut = () => {
    const focused = marks.find(({ button }) => button === document.activeElement);
    marks = [...page.querySelectorAll('[data-line]')].flatMap((part): Mark[] => {
      const place = placeOf(part);
      if (!place) return [];
      const { line, file } = place;
      const button = document.createElement('button');
      button.type = 'button';
      button.tabIndex = -1;
      button.textContent = String(line);
      button.setAttribute('aria-label', `Go to line ${line}${file === undefined ? '' : ` of ${file}`}: ${told(part)}`);
      button.addEventListener('click', () => open(part));
      return [{ part, button, line, isOwn: file === undefined }];
    });
    element.replaceChildren(band, ...marks.map(({ button }) => button));
    const again = focused && marks.find(({ line, isOwn }) => line === focused.line && isOwn === focused.isOwn);
    const stop = again ?? marks[0];
    if (stop) onlyStop(marks, stop);
    again?.button.focus({ preventScroll: true });
    place();
  };
  new ResizeObserver(place).observe(page);

  return {
    element,
    layOut,
    goTo: (line) => {
      // Whoever types in a line and reads elsewhere is left where they read.
      const isOther = line !== cursor;
      cursor = line;
      markCursor(isOther);
    },
    forget: () => {
      cursor = 0;
    },
  };
}

/** Tab comes to one of the marks; arrows go between them. */
function onlyStop(marks: readonly Mark[], stop: Mark): void {
  for (const mark of marks) mark.button.tabIndex = mark === stop ? 0 : -1;
}

function placeOf(part: Element): { readonly line: number; readonly file?: string } | undefined {
  const line = Number(part.getAttribute('data-line'));
  const file = part.getAttribute('data-file');
  return Number.isInteger(line) && line > 0 ? { line, ...(file === null ? {} : { file }) } : undefined;
}

/** The beginning of what a part says, for whom it is read to. */
function told(part: Element): string {
  const words = (part.querySelector('title')?.textContent ?? part.textContent ?? '').replace(/\s+/g, ' ').trim();
  return words.length > 60 ? `${words.slice(0, 60)} …` : words;
}
