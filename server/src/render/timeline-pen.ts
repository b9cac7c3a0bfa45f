import { html, type Markup } from './markup.ts';
import { textLines } from './timeline-measure.ts';

/** What has been drawn, and how far down the page; lengths are the image's own units. */
export interface Pen {
  y: number;
  readonly parts: Markup[];
}

/** Of the page. */
export const WIDTH = 1120;
export const LEFT = 28;
export const RIGHT = WIDTH - 28;

export const LINE = 17;

export function text(x: number, y: number, words: string, className: string, anchor?: 'middle' | 'end'): Markup {
  return html`<text x="${short(x)}" y="${short(y)}"${className !== '' && html` class="${className}"`}${anchor && html` text-anchor="${anchor}"`}>${words}</text>
`;
}

/** Lines over the whole width of the page. */
export function paragraph(pen: Pen, words: string, className: string, most = 6): void {
  for (const one of textLines(words, RIGHT - LEFT, 13, most, className.includes('bold'))) {
    pen.parts.push(text(LEFT, pen.y, one, className));
    pen.y += LINE;
  }
}

export function rect(className: string, x: number, y: number, width: number, height: number): Markup {
  return html`<rect class="${className}" x="${short(x)}" y="${short(y)}" width="${short(Math.max(0, width))}" height="${short(height)}"/>
`;
}

export function line(className: string, x1: number, y1: number, x2: number, y2: number): Markup {
  return html`<line class="${className}" x1="${short(x1)}" y1="${short(y1)}" x2="${short(x2)}" y2="${short(y2)}"/>
`;
}

/** Something that takes no time. */
export function pointMark(x: number, y: number, className = 'mark'): Markup {
  return html`<path class="${className}" d="M${short(x)} ${short(y - 6.5)}l6.5 6.5l-6.5 6.5l-6.5 -6.5z"/>
`;
}

/** Pointing to where it goes on. */
export function arrow(x: number, y: number, to: 'left' | 'right'): Markup {
  return html`<path class="sign" d="M${short(x)} ${short(y)}l${to === 'right' ? -7 : 7} -4v8z"/>
`;
}

/** A tenth of a unit is finer than anybody sees. */
export function short(value: number): number {
  return Math.round(value * 10) / 10;
}

/** A text that is read to somebody, or shown to who points at something, is no longer than this. UTF-16 units. */
export function told(words: string, most = 200): string {
  return words.length > most ? `${words.slice(0, most - 1).replace(/[\ud800-\udbff]$/, '')}…` : words;
}
