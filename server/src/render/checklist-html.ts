import type { Checklist, ChecklistDue, ChecklistThing, ChecklistVisit, ChecklistWarning } from '@curette/shared';
import { itemsHtml, sourceRef } from './checklist-html-steps.ts';
import { atLine, html, type Markup, type Piece } from './markup.ts';
import { fact, sheetPage, sheetTitle } from './sheet.ts';
import { CAUTION, commonLead, unfitWords, whereWords } from './sheet-words.ts';

/**
 * The checklist as one HTML page that needs nothing else: no script, no other file, and a policy that lets nothing run or load.
 * Every text of the protocol is shown as text.
 */
export function checklistHtml(list: Checklist): string {
  return sheetPage(
    list,
    html`${head(list)}
<main>
${course(list)}
</main>
${closing(list)}`,
  );
}

function head(list: Checklist): Markup {
  return html`<header>
${sheetTitle('Checklist', list.title, list.summary)}
<dl class="facts">
${fact('Version', list.version ?? 'not stated')}
<div><dt>Status</dt><dd>${list.status ?? 'not stated'}</dd></div>
${fact('Approved', list.approved)}
${fact('Reviewed', list.reviewed)}
${fact('Review', list.review)}
${fact('Owner', list.owner)}
${fact('Follows', list.follows)}
${fact('Team', list.team.join(', '))}
</dl>
<p class="advice">${CAUTION}</p>
${found(list)}
<div class="head">
${people('Not for', list.exclusions)}
${people('With care', list.cautions)}
${things('Materials', list.materials)}
${things('Instruments', list.instruments)}
${given(list.given)}
</div>
</header>`;
}

/** What the checker found wrong; what it has not judged stands at the end. */
function found(list: Checklist): Piece {
  const problems = list.problems.filter(({ severity }) => severity !== 'advice');
  if (problems.length === 0) return undefined;
  return html`<section class="visit" aria-labelledby="found">
<h3 id="found">${list.fit ? 'What can go wrong' : html`<span class="mark unfit">NOT FIT FOR USE</span> ${unfitWords(list)}`}</h3>
<ol class="problems">${problems.map(
    (problem) =>
      html`<li><b>${problem.title}.</b> ${problem.message} <span class="why">${whereWords(list, problem)}</span></li>`,
  )}</ol>
</section>`;
}

function people(title: string, warnings: readonly ChecklistWarning[]): Piece {
  if (warnings.length === 0) return undefined;
  const { lead, rest } = commonLead(warnings.map(({ text }) => text));
  return html`<section><h3>${title}</h3>
${lead && html`<p class="lead">${lead} …</p>`}
<ul class="list plain">${warnings.map(
    (warning, i) =>
      html`<li${atLine(warning.line)}>${rest[i]}${warning.because && html` <span class="why">— ${warning.because}</span>`}${sourceRef(warning.source)}</li>`,
  )}</ul></section>`;
}

function things(title: string, list: readonly ChecklistThing[]): Piece {
  if (list.length === 0) return undefined;
  return html`<section><h3>${title}</h3><ul class="list">${list.map(
    (thing) =>
      html`<li${atLine(thing.line)}><label><input class="tick" type="checkbox"><span>${thing.name}${thing.is && html` <span class="why">— ${thing.is}</span>`}${doses(thing)}</span><span class="amount">${thing.amount}</span></label></li>`,
  )}</ul></section>`;
}

/** What is said of a thing that is given in doses. */
function doses(thing: ChecklistThing): Piece {
  return thing.facts.length > 0 && html` <span class="why">· ${factList(thing)}</span>`;
}

function factList(thing: ChecklistThing): Piece {
  return thing.facts.map(({ name, value, source }, i) => html`${i > 0 && ', '}${name} ${value}${sourceRef(source)}`);
}

function given(list: readonly ChecklistThing[]): Piece {
  const told = list.filter(({ is, facts }) => is !== null || facts.length > 0);
  if (told.length === 0) return undefined;
  return html`<section><h3>Planned for</h3><ul class="list plain">${told.map(
    (thing) =>
      html`<li${atLine(thing.line)}>${thing.name}${thing.is && html` <span class="why">(${thing.is})</span>`}${thing.facts.length > 0 && ': '}${factList(thing)}</li>`,
  )}</ul></section>`;
}

function course(list: Checklist): Piece {
  let visits = 0;
  return list.course.map((part) => {
    if (part.type === 'interval')
      return html`<p class="interval"${atLine(part.line)}><span>then wait <b>${part.text}</b>${part.because && html` <span class="why">— ${part.because}</span>`}${sourceRef(part.source)}</span></p>`;
    visits += 1;
    return visit(part, visits);
  });
}

function visit(part: ChecklistVisit, nth: number): Markup {
  const id = `visit-${nth}`;
  return html`<section class="visit" aria-labelledby="${id}">
<header${atLine(part.line)}><h2 id="${id}"><span class="nth">${nth}</span> ${part.label}</h2>${part.time && html`<span class="time">stated times add up to ${part.time}</span>`}</header>
${part.dates && html`<p class="lead">Date: <b>${part.dates}</b></p>`}
${hasColumns(part) && html`<div class="row cols" aria-hidden="true"><span></span><span></span><span></span><span>with</span><span>who</span><span class="takes">time</span></div>`}
${itemsHtml(part.steps, true)}
${dueBox('Before the visit ends', part.due, 'due')}
${dueBox('Left for a later visit', part.carried, 'due later')}
</section>`;
}

function hasColumns(part: ChecklistVisit): boolean {
  return part.steps.some((item) => 'who' in item && item.type !== 'pause' && item.who.length > 0);
}

function dueBox(title: string, due: readonly ChecklistDue[], className: string): Piece {
  if (due.length === 0) return undefined;
  return html`<div class="${className}"><p class="name">${title}</p><ul class="items">${due.map(
    (one) =>
      html`<li><label><input class="tick" type="checkbox"><span>${one.thing}: <b>${one.states.join(' or ')}</b>, ${one.by}${sourceRef(one.source)}</span></label></li>`,
  )}</ul></div>`;
}

function closing(list: Checklist): Markup {
  const advice = list.problems.filter(({ severity }) => severity === 'advice');
  return html`<footer class="closing">
${
  list.sources.length > 0 &&
  html`<section><h3>Sources</h3><ol class="sources">${list.sources.map(
    ({ citation }, i) => html`<li id="source-${i + 1}"><span>${i + 1}</span><span>${citation}</span></li>`,
  )}</ol></section>`
}
${
  advice.length > 0 &&
  html`<section><h3>Not judged by the checker</h3><ul class="problems">${advice.map(
    ({ message }) => html`<li>${message}</li>`,
  )}</ul></section>`
}
</footer>`;
}
