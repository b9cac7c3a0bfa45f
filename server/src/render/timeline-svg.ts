import type { Timeline, TimelineVisit } from '@curette/shared';
import { html, type Markup, type Piece } from './markup.ts';
import { CAUTION, unfitWords, versionWords } from './sheet-words.ts';
import { textLines, textWidth } from './timeline-measure.ts';
import { LEFT, line, type Pen, paragraph, pointMark, RIGHT, rect, text, told, WIDTH } from './timeline-pen.ts';
import { timelineStyle } from './timeline-style.ts';
import { criticalSign } from './timeline-svg-row.ts';
import { drawVisit } from './timeline-svg-visit.ts';
import { chairWords, clockSpanWords, clockWords } from './timeline-words.ts';

/**
 * The timeline as one SVG image that needs nothing else: no script, no other file. Every text of the protocol is shown as text. For
 * a wall, a page or a screen, light or dark; nothing in it hangs on colour.
 */
export function timelineSvg(timeline: Timeline): string {
  const pen: Pen = { y: 0, parts: [] };
  head(pen, timeline);
  if (timeline.course.length === 0) paragraph(pen, 'It has no visits.', '');
  let nth = 0;
  for (const part of timeline.course) {
    if (part.type === 'visit') {
      nth += 1;
      drawVisit(pen, part, nth, timeline.team);
    } else gap(pen, `then wait ${part.text}${part.because ? ` — ${part.because}` : ''}`);
  }
  legend(pen, timeline);
  const height = Math.ceil(pen.y + 24);
  const svg = html`<svg xmlns="http://www.w3.org/2000/svg" class="timeline" viewBox="0 0 ${WIDTH} ${height}" width="${WIDTH}" height="${height}" role="img" aria-labelledby="curette-title curette-desc">
<title id="curette-title">${titleWords(timeline)}</title>
<desc id="curette-desc">${description(timeline)}</desc>
<style>${{ markup: timelineStyle }}</style>
<defs><pattern id="curette-hatch" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect class="blank" width="5" height="5"/><line class="hatch" x1="1" y1="0" x2="1" y2="5"/></pattern></defs>
${rect('paper', 0, 0, WIDTH, height)}
${pen.parts}
</svg>
`;
  // The two characters that a text may hold and an XML file may not.
  return svg.markup.replace(/[\ufffe\uffff]/g, '\ufffd');
}

function titleWords(timeline: Timeline): string {
  return `Timeline: ${told(timeline.title)}${timeline.fit ? '' : ', not fit for use'}`;
}

/** What the picture says, for whom it is read to. */
function description(timeline: Timeline): string {
  let nth = 0;
  return timeline.course
    .map((part) => {
      if (part.type === 'gap') return `Then wait ${told(part.text)}.`;
      nth += 1;
      return [`Visit ${nth}, ${told(part.label)}. ${chairWords(part)}`, ...rowsRead(part), ...clocksRead(part)].join(
        ' ',
      );
    })
    .join(' ');
}

/** A picture is not read for longer than this. */
const MOST_READ = 60;

function rowsRead({ rows }: TimelineVisit): string[] {
  const timed = rows.filter((row) => row.type !== 'group');
  return timed
    .slice(0, MOST_READ)
    .map((row) => `${row.number ? `${row.number}, ` : ''}${told(row.label)}: ${row.words.begins}.`)
    .concat(timed.length > MOST_READ ? [`And ${timed.length - MOST_READ} more.`] : []);
}

function clocksRead({ clocks }: TimelineVisit): string[] {
  return clocks
    .slice(0, MOST_READ)
    .map((clock) => `Clock: ${told(`${clock.text}, ${clockSpanWords(clock)}`, 400)}: ${clockWords(clock)}.`);
}

function head(pen: Pen, timeline: Timeline): void {
  if (!timeline.fit) {
    const words = `Not fit for use: ${unfitWords(timeline)}`;
    pen.parts.push(rect('alarm', 0, 0, WIDTH, 34), text(LEFT, 22, words, 'on-alarm'));
    pen.y = 34;
  }
  pen.y += 26;
  pen.parts.push(rect('tab', LEFT, pen.y - 8, RIGHT - LEFT, 5));
  pen.y += 26;
  for (const words of textLines(timeline.title, RIGHT - LEFT, 24, 3, true)) {
    pen.parts.push(text(LEFT, pen.y, words, 'title'));
    pen.y += 30;
  }
  pen.y -= 6;
  const status = `Timeline, ${versionWords(timeline)}`;
  paragraph(pen, status, 'bold', 2);
  paragraph(pen, CAUTION, 'soft');
}

function gap(pen: Pen, words: string): void {
  pen.y += 22;
  const lines = textLines(words, 640, 13, 3, true);
  const width = Math.max(...lines.map((one) => textWidth(one, 13, true))) / 2 + 18;
  const middle = (LEFT + RIGHT) / 2;
  pen.parts.push(
    line('rule', LEFT, pen.y - 4, middle - width, pen.y - 4),
    line('rule', middle + width, pen.y - 4, RIGHT, pen.y - 4),
  );
  for (const one of lines) {
    pen.parts.push(text(middle, pen.y, one, 'bold', 'middle'));
    pen.y += 17;
  }
}

/** What the signs mean; those that stand in the drawing. */
function legend(pen: Pen, timeline: Timeline): void {
  const visits = timeline.course.flatMap((part) => (part.type === 'visit' && part.time !== null ? [part] : []));
  if (visits.length === 0) return;
  const rows = visits.flatMap((visit) => visit.rows);
  const signs: { readonly draw: (x: number, y: number) => Piece; readonly width: number; readonly words: string }[] = [
    { draw: (x, y) => rect('quick', x, y - 10, 22, 11), width: 22, words: 'in the quickest run' },
    { draw: (x, y) => rect('slow', x, y - 10, 22, 11), width: 22, words: 'in the slowest run' },
    { draw: (x, y) => line('between', x, y - 4.5, x + 22, y - 4.5), width: 22, words: 'may be in between' },
  ];
  if (rows.some((row) => row.type !== 'group' && row.takes.longest === 0))
    signs.push({ draw: (x, y) => pointMark(x + 7, y - 4.5), width: 14, words: 'takes no stated time' });
  if (visits.some((visit) => !visit.series))
    signs.push({
      draw: (x, y) => [criticalSign(x, y - 4.5), rect('quick critical', x + 14, y - 10, 22, 11)],
      width: 36,
      words: 'critical: what takes longer makes the visit longer',
    });
  if (rows.some((row) => row.end.latest === null))
    signs.push({
      draw: (x, y) => openEnd(x, y - 4.5),
      width: 22,
      words: 'no latest time is stated',
    });
  if (visits.some((visit) => visit.clocks.length > 0))
    signs.push({
      draw: (x, y) => html`<path class="bracket" d="M${x + 5} ${y - 11}h-4v13h4M${x + 17} ${y - 11}h4v13h-4"/>`,
      width: 22,
      words: 'how old the state may be when the step begins',
    });
  pen.y += 20;
  pen.parts.push(line('rule', LEFT, pen.y - 12, RIGHT, pen.y - 12));
  pen.y += 10;
  let x = LEFT;
  for (const sign of signs) {
    const width = sign.width + 8 + textWidth(sign.words, 11.5) + 22;
    if (x > LEFT && x + width - 22 > RIGHT) {
      x = LEFT;
      pen.y += 20;
    }
    pen.parts.push(html`${sign.draw(x, pen.y)}`, text(x + sign.width + 8, pen.y, sign.words, 'small soft'));
    x += width;
  }
}

function openEnd(x: number, y: number): Markup {
  return html`${line('between', x, y, x + 18, y)}<path class="sign" d="M${x + 22} ${y}l-7 -4v8z"/>`;
}
