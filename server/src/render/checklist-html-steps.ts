import type { ChecklistDue, ChecklistItem, ChecklistLimit } from '@curette/shared';
import { atLine, html, type Markup, type Piece } from './markup.ts';
import { isNumbered } from './sheet-words.ts';

interface Said {
  readonly with?: readonly string[];
  readonly who: readonly string[];
  readonly takes: string | null;
}

type Item<T extends ChecklistItem['type']> = Extract<ChecklistItem, { type: T }>;

/**
 * A list of events. Those of the main path are numbered.
 * @param main whether this is a visit's own list
 */
export function itemsHtml(items: readonly ChecklistItem[], main: boolean): Piece {
  const rows: Markup[] = [];
  let number = 0;
  for (let at = 0; at < items.length; at++) {
    const item = items[at];
    if (!item) continue;
    if (item.type === 'instruct') {
      // What the patient is told in one go stands together.
      const told = [item];
      for (let next = items[at + 1]; next?.type === 'instruct'; next = items[at + 1]) {
        told.push(next);
        at += 1;
      }
      rows.push(html`<li>${tell(told)}</li>`);
      continue;
    }
    const counted = main && isNumbered(item);
    if (counted) number += 1;
    rows.push(
      html`<li class="${isShort(item) ? 'whole' : 'long'}"${atLine(item.line)}>${itemHtml(item, counted ? number : undefined)}</li>`,
    );
  }
  return rows.length > 0 && html`<ol class="steps">${rows}</ol>`;
}

/** A source's number, which leads to the list at the end. */
export function sourceRef(source: number | null): Piece {
  return source !== null && html`<a class="ref" href="#source-${source}" aria-label="source ${source}">${source}</a>`;
}

/** Short enough to be kept on one page whatever it holds. */
function isShort(item: ChecklistItem): boolean {
  switch (item.type) {
    case 'decide':
    case 'together':
      return false;
    case 'step':
    case 'verify':
    case 'repeat':
    case 'complication':
      return item.steps.length <= 4;
    default:
      return true;
  }
}

function itemHtml(item: ChecklistItem, number: number | undefined): Markup {
  switch (item.type) {
    case 'step':
      return html`${row(number, html`<span class="do">${item.text}</span>`, item)}
${(item.clocks.length > 0 || item.limits.length > 0 || item.because !== null || item.source !== null) && html`<div class="more">${because(item)}${item.limits.map(limit)}${item.clocks.map(clock)}</div>`}
${nested(item.steps)}`;
    case 'pause':
      return pause(item);
    case 'wait':
      return html`${row(number, html`<span class="do">${item.text}</span>`, undefined)}${because(item, 'more')}`;
    case 'verify':
      return html`${row(number, html`<span class="tag">Check</span> <span class="do">${item.text}</span>${item.within && html`: <b>${item.within}</b>`}`, item)}
<div class="more">${because(item)}${item.otherwise && html`<p>If not: ${item.otherwise}</p>`}${item.steps.length > 0 && html`<p>If not:</p>`}</div>
${nested(item.steps)}`;
    case 'decide':
      return html`${row(number, html`<span class="tag">Decide</span> <span class="question">${item.text}</span>${item.how && html` — ${item.how}`}`, item)}
${because(item, 'more')}
<div class="nested">${item.options.map(
        (option) =>
          html`<div class="option"${atLine(option.line)}><label class="name"><input class="tick" type="checkbox"><span>${option.label}${option.steps.length === 0 && html` <span class="go">go on</span>`}</span></label>${itemsHtml(option.steps, false)}</div>`,
      )}</div>`;
    case 'together':
      return html`${row(number, html`<span class="tag">At the same time</span>`, undefined)}
<div class="nested lanes">${item.lanes.map(
        (lane) =>
          html`<div class="option"${atLine(lane.line)}><p class="name">${lane.label}${lane.who.length > 0 && html` <span class="go">${lane.who.join(', ')}</span>`}</p>${itemsHtml(lane.steps, false)}</div>`,
      )}</div>`;
    case 'repeat':
      return html`${row(number, html`<span class="tag">Repeat</span> ${item.until && html`until ${item.until}`}${item.atMost !== null && html`, at most ${item.atMost} times`}`, undefined)}${nested(item.steps)}`;
    case 'complication':
      return html`<aside class="if"><p><span class="tag">If it happens</span> <b>${item.label}</b></p>${itemsHtml(item.steps, false)}</aside>`;
    case 'instruct':
      return tell([item]);
    case 'record':
      return html`${row(number, html`<span class="tag">Record</span> <span class="do">${item.what}</span>${item.text && html` — ${item.text}`}`, item)}${because(item, 'more')}`;
    case 'note':
      return html`<p class="more line">${item.text}</p>`;
    case 'stop':
      return html`<p class="line"><span class="stop">Stop here${item.text !== '' && html`: ${item.text}`}</span></p>`;
    default:
      return item satisfies never;
  }
}

/** Tick, number, what, and to its right with what, who and how long. */
function row(number: number | undefined, what: Markup, said: Said | undefined): Markup {
  const tools = said?.with?.join(', ') ?? '';
  const who = said?.who.join(', ') ?? '';
  const wide = tools === '' && who === '';
  const shape = `row${wide ? ' wide' : ''}${number === undefined ? ' bare' : ''}`;
  return html`<label class="${shape}"><input class="tick" type="checkbox">${number !== undefined && html`<span class="nr">${number}</span>`}<span>${what}</span>${!wide && html`<span class="tools">${tools}</span><span class="who">${who}</span>`}<span class="takes">${said?.takes}</span></label>`;
}

function nested(items: readonly ChecklistItem[]): Piece {
  return items.length > 0 && html`<div class="nested">${itemsHtml(items, false)}</div>`;
}

function because(item: { readonly because: string | null; readonly source: number | null }, className?: string): Piece {
  if (item.because === null && item.source === null) return undefined;
  const line = html`<p class="why">${item.because}${sourceRef(item.source)}</p>`;
  return className === undefined ? line : html`<div class="${className}">${line}</div>`;
}

function limit(one: ChecklistLimit): Markup {
  return html`<p class="limit ${one.type}"><b>${one.text}</b>${one.why && html` — ${one.why}`}${sourceRef(one.source)}</p>`;
}

function clock(one: Item<'step'>['clocks'][number]): Markup {
  return html`<p class="start"><span><b>Clock:</b> ${one.text}. <b>${one.limit}</b> until: ${one.until}</span><span class="at">at <span class="blank"></span> : <span class="blank"></span></span></p>`;
}

function pause(item: Item<'pause'>): Markup {
  const said = [item.who.join(', '), item.takes].filter((text) => text !== null && text !== '').join(', ');
  return html`<section class="pause"><header><h4>Pause: ${item.label}</h4><span class="hint">${item.hint}${sourceRef(item.source)}</span><span class="why">${said}</span></header>
${item.because && html`<p class="why">${item.because}</p>`}
<ul class="items">${item.items.map((text) => html`<li><label><input class="tick" type="checkbox"><span>${text}</span></label></li>`)}</ul>
${due(item.due)}</section>`;
}

function due(list: readonly ChecklistDue[]): Piece {
  if (list.length === 0) return undefined;
  return html`<div class="due"><p class="name">Before closing</p><ul class="items">${list.map(
    (one) =>
      html`<li><label><input class="tick" type="checkbox"><span>${one.thing}: <b>${one.states.join(' or ')}</b>${sourceRef(one.source)}</span></label></li>`,
  )}</ul></div>`;
}

function tell(items: readonly Item<'instruct'>[]): Markup {
  return html`<div class="tell"><p class="name">Tell the patient</p><ul>${items.map(
    (item) =>
      html`<li${atLine(item.line)}><label><input class="tick" type="checkbox"><span class="said">${item.text}${sourceRef(item.source)}${item.because && html` <span class="why">— ${item.because}</span>`}</span>${item.home && html`<span class="home">to take home</span>`}</label></li>`,
  )}</ul></div>`;
}
