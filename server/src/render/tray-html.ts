import type { Tray, TrayThing, TrayVisit } from '@curette/shared';
import { atLine, html, type Markup, type Piece } from './markup.ts';
import { sheetPage, sheetTitle } from './sheet.ts';
import { CAUTION } from './sheet-words.ts';

/** The tray as one HTML page that needs nothing else, to lay things out by: a part for each visit. */
export function trayHtml(tray: Tray): string {
  return sheetPage(
    tray,
    html`<header>
${sheetTitle('Tray', tray.title, null)}
<p class="advice">${CAUTION}</p>
</header>
<main>
${tray.visits.map((visit, i) => visitHtml(visit, i + 1))}
</main>`,
  );
}

function visitHtml(visit: TrayVisit, nth: number): Markup {
  const id = `visit-${nth}`;
  const { materials, instruments } = visit;
  return html`<section class="visit" aria-labelledby="${id}">
<header${atLine(visit.line)}><h2 id="${id}"><span class="nth">${nth}</span> ${visit.label}</h2></header>
${visit.dates && html`<p class="lead">Date: <b>${visit.dates}</b></p>`}
${materials.length + instruments.length === 0 && html`<p class="lead">Nothing has to be laid out.</p>`}
<div class="head">
${group('Materials', materials)}
${group('Instruments', instruments)}
</div>
</section>`;
}

function group(title: string, things: readonly TrayThing[]): Piece {
  if (things.length === 0) return undefined;
  return html`<section><h3>${title}</h3><ul class="list">${things.map(
    (thing) =>
      html`<li${atLine(thing.line)}><label><input class="tick" type="checkbox"><span>${thing.name}${thing.is && html` <span class="why">— ${thing.is}</span>`}${only(thing)}<span class="why first">${thing.first.text}</span></span><span class="amount">${amount(thing)}</span></label></li>`,
  )}</ul></section>`;
}

function only({ only: circumstances }: TrayThing): Piece {
  return circumstances.length > 0 && html` <span class="only">only if ${circumstances.join('; or if ')}</span>`;
}

function amount({ used, listed }: TrayThing): Piece {
  if (used === null) return listed;
  return html`${used}${listed !== null && listed !== used && html` <span class="why">of ${listed}</span>`}`;
}
