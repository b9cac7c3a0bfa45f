import type { PreviewView } from '@curette/shared';
import type { FromPage, PreviewCase, ToPage } from './messages.ts';

/** The row above the page: what is looked at, of which protocol or case, and what can be done with it. */
export interface Bar {
  readonly element: HTMLElement;
  readonly show: (page: Extract<ToPage, { kind: 'page' }>) => void;
}

const VIEWS: readonly (readonly [PreviewView, string])[] = [
  ['checklist', 'Checklist'],
  ['timeline', 'Timeline'],
  ['tray', 'Tray'],
  ['problems', 'Problems'],
];

export function createBar(send: (message: FromPage) => void): Bar {
  const element = document.createElement('section');
  element.id = 'preview-bar';
  element.setAttribute('aria-label', 'What is shown');

  const views = createViews((view) => send({ kind: 'view', view }));
  const protocol = createChoice('Protocol', (name) => send({ kind: 'protocol', name }));
  const ofCase = createChoice('Case', (key) => send({ kind: 'case', key: key === '' ? null : key }));
  const stay = createButton('Stay with this file', () => {
    const stays = stay.getAttribute('aria-pressed') !== 'true';
    stay.setAttribute('aria-pressed', String(stays));
    send({ kind: 'follow', follows: !stays });
  });
  const print = createButton('Print …', () => send({ kind: 'print' }));
  const save = createButton('Save …', () => send({ kind: 'save' }));
  element.append(views.element, protocol.element, ofCase.element, stay, print, save);

  return {
    element,
    show: (page) => {
      views.show(page.view);
      protocol.show(
        page.protocols.map(({ name, title }) => ({ key: name, title })),
        page.protocol,
      );
      ofCase.show(page.cases.length > 0 ? [{ key: '', title: 'Any patient' }, ...page.cases] : [], page.case ?? '');
      stay.setAttribute('aria-pressed', String(!page.follows));
      const nothing = page.protocol === null;
      print.disabled = nothing;
      save.disabled = nothing;
    },
  };
}

/** Tabs as a keyboard expects them: one stop for all, arrows between them. */
function createViews(choose: (view: PreviewView) => void) {
  const element = document.createElement('div');
  element.setAttribute('role', 'tablist');
  element.setAttribute('aria-label', 'View');
  const tabs = VIEWS.map(([view, label]) => {
    const tab = document.createElement('button');
    tab.id = `preview-view-${view}`;
    tab.type = 'button';
    tab.textContent = label;
    tab.setAttribute('role', 'tab');
    tab.setAttribute('aria-controls', 'preview-panel');
    tab.addEventListener('click', () => choose(view));
    return { view, tab };
  });
  element.append(...tabs.map(({ tab }) => tab));
  const show = (shown: PreviewView) => {
    for (const { view, tab } of tabs) {
      tab.setAttribute('aria-selected', String(view === shown));
      tab.tabIndex = view === shown ? 0 : -1;
    }
  };
  element.addEventListener('keydown', (event) => {
    const at = tabs.findIndex(({ tab }) => tab === document.activeElement);
    const next = stepped(event.key, at, tabs.length, ['ArrowLeft', 'ArrowRight']);
    const chosen = next === undefined ? undefined : tabs[next];
    if (!chosen) return;
    event.preventDefault();
    chosen.tab.focus();
    show(chosen.view);
    choose(chosen.view);
  });
  show('checklist');
  return { element, show };
}

/** Where a key leads in a row of things: one on or back and around, or to an end; undefined for any other key. */
export function stepped(
  key: string,
  at: number,
  length: number,
  [back, on]: readonly [string, string],
): number | undefined {
  if (length === 0) return undefined;
  if (key === back) return (at - 1 + length) % length;
  if (key === on) return (at + 1) % length;
  if (key === 'Home') return 0;
  return key === 'End' ? length - 1 : undefined;
}

/** A list to choose from; not there where there is nothing to choose. */
function createChoice(label: string, choose: (name: string) => void) {
  const element = document.createElement('label');
  const words = document.createElement('span');
  words.textContent = label;
  const select = document.createElement('select');
  select.addEventListener('change', () => choose(select.value));
  element.append(words, select);
  let shown = '';
  const show = (subjects: readonly PreviewCase[], chosen: string | null) => {
    element.hidden = subjects.length < 2;
    const listed = JSON.stringify(subjects);
    // A list that somebody has open stays as it is while nothing in it has changed.
    if (listed !== shown)
      select.replaceChildren(
        ...subjects.map(({ key, title }) => {
          const option = document.createElement('option');
          option.value = key;
          option.textContent = title;
          return option;
        }),
      );
    shown = listed;
    select.value = chosen ?? '';
  };
  return { element, show };
}

function createButton(label: string, act: () => void): HTMLButtonElement {
  const button = document.createElement('button');
  button.type = 'button';
  button.textContent = label;
  button.addEventListener('click', act);
  return button;
}
