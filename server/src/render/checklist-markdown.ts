import type { Checklist, ChecklistDue, ChecklistItem, ChecklistThing, ChecklistVisit } from '@curette/shared';
import { safe, sheetLines } from './safe-markdown.ts';
import { commonLead, isNumbered, whereWords } from './sheet-words.ts';

/** The checklist as Markdown (CommonMark with task lists). Texts of the protocol stay text: none becomes markup or a link. */
export function checklistMarkdown(list: Checklist): string {
  const lines = [
    ...sheetLines(list, list.title),
    ...(list.summary ? [safe(list.summary), ''] : []),
    ...factLines(list),
    ...problemLines(list),
    ...warningLines('Not for', list.exclusions),
    ...warningLines('With care', list.cautions),
    ...thingLines('Materials', list.materials),
    ...thingLines('Instruments', list.instruments),
    ...givenLines(list.given),
    ...courseLines(list),
    ...sourceLines(list),
  ];
  return `${lines.join('\n').trimEnd()}\n`;
}

function ref(source: number | null): string {
  return source === null ? '' : ` \\[${source}\\]`;
}

function why(text: string | null): string {
  return text === null ? '' : ` — ${safe(text)}`;
}

function factLines(list: Checklist): string[] {
  const facts = [
    ['Owner', list.owner],
    ['Approved', list.approved],
    ['Reviewed', list.reviewed],
    ['Review', list.review],
    ['Follows', list.follows],
    ['Team', list.team.join(', ') || null],
  ] as const;
  const told = facts.flatMap(([name, value]) => (value === null ? [] : [`- ${name}: ${safe(value)}`]));
  return told.length > 0 ? [...told, ''] : [];
}

function problemLines(list: Checklist): string[] {
  const found = list.problems.filter(({ severity }) => severity !== 'advice');
  if (found.length === 0) return [];
  return [
    `## ${list.fit ? 'What can go wrong' : 'Not fit for use'}`,
    '',
    ...found.map(
      (problem) => `- **${safe(problem.title)}.** ${safe(problem.message)} (${safe(whereWords(list, problem))})`,
    ),
    '',
  ];
}

function warningLines(title: string, warnings: Checklist['exclusions']): string[] {
  if (warnings.length === 0) return [];
  const { lead, rest } = commonLead(warnings.map(({ text }) => text));
  return [
    `## ${title}`,
    '',
    ...(lead === undefined ? [] : [`${safe(lead)} …`, '']),
    ...warnings.map(({ because, source }, i) => `- ${safe(rest[i] ?? '')}${why(because)}${ref(source)}`),
    '',
  ];
}

function thingLines(title: string, things: readonly ChecklistThing[]): string[] {
  if (things.length === 0) return [];
  return [
    `## ${title}`,
    '',
    ...things.map(
      (thing) =>
        `- [ ] ${safe(thing.name)}${why(thing.is)}${thing.amount === null ? '' : `, ${safe(thing.amount)}`}${thing.facts.length > 0 ? `; ${factsOf(thing)}` : ''}`,
    ),
    '',
  ];
}

/** What is said of a thing, with what it rests on. */
function factsOf(thing: ChecklistThing): string {
  return thing.facts.map(({ name, value, source }) => `${safe(name)} ${safe(value)}${ref(source)}`).join(', ');
}

function givenLines(things: readonly ChecklistThing[]): string[] {
  const told = things.filter(({ is, facts }) => is !== null || facts.length > 0);
  if (told.length === 0) return [];
  return [
    '## Planned for',
    '',
    ...told.map(
      (thing) =>
        `- ${safe(thing.name)}${thing.is === null ? '' : ` (${safe(thing.is)})`}${thing.facts.length > 0 ? `: ${factsOf(thing)}` : ''}`,
    ),
    '',
  ];
}

function courseLines(list: Checklist): string[] {
  let visits = 0;
  return list.course.flatMap((part) => {
    if (part.type === 'interval')
      return [`*Then wait* **${safe(part.text)}**${why(part.because)}${ref(part.source)}`, ''];
    visits += 1;
    return visitLines(part, visits);
  });
}

function visitLines(visit: ChecklistVisit, nth: number): string[] {
  return [
    `## Visit ${nth}: ${safe(visit.label)}`,
    '',
    ...(visit.dates === null ? [] : [`Date: **${safe(visit.dates)}**`, '']),
    ...(visit.time === null ? [] : [`Stated times add up to ${safe(visit.time)}.`, '']),
    ...itemLines(visit.steps, '', true),
    ...dueLines('Before the visit ends', visit.due, '', true),
    ...dueLines('Left for a later visit', visit.carried, '', true),
    '',
  ];
}

/** Every event is an item of a list, and what is inside it a list again, two columns further in. */
function itemLines(items: readonly ChecklistItem[], indent: string, main: boolean): string[] {
  let number = 0;
  return items.flatMap((item) => {
    if (main && isNumbered(item)) number += 1;
    return itemOf(item, indent, main && isNumbered(item) ? `${number}\\. ` : '');
  });
}

function itemOf(item: ChecklistItem, indent: string, number: string): string[] {
  const inner = `${indent}  `;
  const tick = (text: string) => `${indent}- [ ] ${number}${text}`;
  switch (item.type) {
    case 'step': {
      const said = saidWords(item.who, item.takes);
      const tools = item.with.length > 0 ? `, with ${safe(item.with.join(', '))}` : '';
      return [
        tick(`**${safe(item.text)}**${tools}${said}`),
        ...groundLines(item, inner),
        ...item.limits.map((one) => `${inner}- *${safe(one.text)}*${why(one.why)}${ref(one.source)}`),
        ...item.clocks.map(
          (one) => `${inner}- **Clock:** ${safe(one.text)}. **${safe(one.limit)}** until: ${safe(one.until)}`,
        ),
        ...itemLines(item.steps, inner, false),
      ];
    }
    case 'pause':
      return [
        `${indent}- **Pause: ${safe(item.label)}**${item.hint === null ? '' : ` ${safe(item.hint)}`}${saidWords(item.who, item.takes)}${ref(item.source)}`,
        ...(item.because === null ? [] : [`${inner}- ${safe(item.because)}`]),
        ...item.items.map((text) => `${inner}- [ ] ${safe(text)}`),
        ...dueLines('Before closing', item.due, inner, false),
      ];
    case 'wait':
      return [tick(`**${safe(item.text)}**`), ...groundLines(item, inner)];
    case 'verify':
      return [
        tick(
          `Check **${safe(item.text)}**${item.within === null ? '' : `: **${safe(item.within)}**`}${saidWords(item.who, item.takes)}`,
        ),
        ...groundLines(item, inner),
        ...(item.otherwise === null ? [] : [`${inner}- If not: ${safe(item.otherwise)}`]),
        ...(item.steps.length === 0 ? [] : [`${inner}- If not:`, ...itemLines(item.steps, `${inner}  `, false)]),
      ];
    case 'decide':
      return [
        tick(`Decide **${safe(item.text)}**${why(item.how)}${saidWords(item.who, item.takes)}`),
        ...groundLines(item, inner),
        ...item.options.flatMap((option) => [
          `${inner}- [ ] *${safe(option.label)}*${option.steps.length === 0 ? ': go on' : ''}`,
          ...itemLines(option.steps, `${inner}  `, false),
        ]),
      ];
    case 'together':
      return [
        tick('At the same time'),
        ...item.lanes.flatMap((lane) => [
          `${inner}- *${safe(lane.label)}*${saidWords(lane.who, null)}`,
          ...itemLines(lane.steps, `${inner}  `, false),
        ]),
      ];
    case 'repeat':
      return [
        tick(
          `Repeat${item.until === null ? '' : ` until ${safe(item.until)}`}${item.atMost === null ? '' : `, at most ${item.atMost} times`}`,
        ),
        ...itemLines(item.steps, inner, false),
      ];
    case 'complication':
      return [`${indent}- *If it happens:* **${safe(item.label)}**`, ...itemLines(item.steps, inner, false)];
    case 'instruct':
      return [
        tick(
          `Tell the patient${item.home ? ', to take home' : ''}: ${safe(item.text)}${why(item.because)}${ref(item.source)}`,
        ),
      ];
    case 'record':
      return [
        tick(`Record **${safe(item.what)}**${why(item.text)}${saidWords(item.who, item.takes)}`),
        ...groundLines(item, inner),
      ];
    case 'note':
      return [`${indent}- ${safe(item.text)}`];
    case 'stop':
      return [`${indent}- **Stop here${item.text === '' ? '' : `: ${safe(item.text)}`}**`];
    default:
      return item satisfies never;
  }
}

function saidWords(who: readonly string[], takes: string | null): string {
  const said = [who.join(', '), takes ?? ''].filter((text) => text !== '');
  return said.length > 0 ? ` (${safe(said.join(', '))})` : '';
}

function groundLines(
  item: { readonly because: string | null; readonly source: number | null },
  indent: string,
): string[] {
  if (item.because === null && item.source === null) return [];
  return [`${indent}- ${safe(item.because ?? 'Source')}${ref(item.source)}`];
}

function dueLines(title: string, due: readonly ChecklistDue[], indent: string, by: boolean): string[] {
  if (due.length === 0) return [];
  return [
    `${indent}- **${title}**`,
    ...due.map(
      (one) =>
        `${indent}  - [ ] ${safe(one.thing)}: **${safe(one.states.join(' or '))}**${by ? `, ${safe(one.by)}` : ''}${ref(one.source)}`,
    ),
  ];
}

function sourceLines(list: Checklist): string[] {
  const advice = list.problems.filter(({ severity }) => severity === 'advice');
  return [
    ...(list.sources.length > 0
      ? ['## Sources', '', ...list.sources.map(({ citation }, i) => `${i + 1}. ${safe(citation)}`), '']
      : []),
    ...(advice.length > 0
      ? ['## Not judged by the checker', '', ...advice.map(({ message }) => `- ${safe(message)}`), '']
      : []),
  ];
}
