import type { Tray, TrayThing, TrayVisit } from '@curette/shared';
import { safe, sheetLines } from './safe-markdown.ts';

/** The tray as Markdown (CommonMark with task lists). Texts of the protocol stay text. */
export function trayMarkdown(tray: Tray): string {
  const lines = [
    ...sheetLines(tray, `Tray: ${tray.title}`),
    ...tray.visits.flatMap((visit, i) => visitLines(visit, i + 1)),
  ];
  return `${lines.join('\n').trimEnd()}\n`;
}

function visitLines(visit: TrayVisit, nth: number): string[] {
  const { materials, instruments } = visit;
  return [
    `## Visit ${nth}: ${safe(visit.label)}`,
    '',
    ...(visit.dates === null ? [] : [`Date: **${safe(visit.dates)}**`, '']),
    ...(materials.length + instruments.length === 0 ? ['Nothing has to be laid out.', ''] : []),
    ...group('Materials', materials),
    ...group('Instruments', instruments),
  ];
}

function group(title: string, things: readonly TrayThing[]): string[] {
  return things.length === 0 ? [] : [`### ${title}`, '', ...things.map(thingLine), ''];
}

function thingLine({ name, is, used, listed, first, only }: TrayThing): string {
  const amount = [used, used !== listed && listed !== null && (used === null ? listed : `of ${listed}`)];
  const words = amount.filter(Boolean).join(' ');
  return [
    `- [ ] **${safe(name)}**`,
    is !== null && ` — ${safe(is)}`,
    words !== '' && `, ${safe(words)}`,
    only.length > 0 && `; only if ${safe(only.join('; or if '))}`,
    `; first for: ${safe(first.text)}`,
  ]
    .filter(Boolean)
    .join('');
}
