import type { Checklist, ChecklistProblem } from '@curette/shared';
import { atLine, html, type Markup } from './markup.ts';
import { sheetPage, sheetTitle } from './sheet.ts';
import { unfitWords } from './sheet-words.ts';

/** What the checker found in a protocol, as one HTML page that needs nothing else. */
export function problemsHtml(list: Checklist): string {
  const of = (severity: ChecklistProblem['severity']) =>
    list.problems.filter((problem) => problem.severity === severity);
  return sheetPage(
    list,
    html`<header>
${sheetTitle('Problems', list.title, list.problems.length === 0 ? 'The checker found nothing wrong.' : list.fit ? null : sentenceOf(list))}
</header>
<main>
${part(list, 'Errors', of('error'))}
${part(list, 'Warnings', of('warning'))}
${part(list, 'Advice, and what is not judged', of('advice'))}
</main>`,
  );
}

function sentenceOf(list: Checklist): string {
  return `Not fit for use: ${unfitWords(list)}`;
}

function part(list: Checklist, title: string, problems: readonly ChecklistProblem[]): Markup | undefined {
  if (problems.length === 0) return undefined;
  return html`<section class="visit">
<header><h2>${title}</h2><span class="time">${problems.length}</span></header>
<ol class="problems">${problems.map(
    (problem) =>
      html`<li${atLine(problem.line, problem.file)}><b>${problem.title}.</b> ${problem.message}${problem.file !== list.file && html` <span class="why">${problem.file}${problem.line !== null && `, line ${problem.line}`}</span>`}</li>`,
  )}</ol>
</section>`;
}
