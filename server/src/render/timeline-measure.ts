import stringWidth from 'string-width';

/**
 * How wide a text is at most, in a sans-serif face of `size`, in the unit of `size`. The widths are those of a wide face (DejaVu Sans,
 * which browsers on Linux fall back to), rounded up: what is laid out with them fits with any face the page asks for.
 */
export function textWidth(text: string, size: number, bold = false): number {
  let width = 0;
  for (const { segment } of graphemes.segment(text)) width += widthOf(segment);
  return width * size * (bold ? 1.12 : 1);
}

/**
 * Breaks a text into lines no wider than `width`, at spaces where there are some, else anywhere.
 * @param most lines; what does not fit into them is cut, and ends in an ellipsis
 */
export function textLines(text: string, width: number, size: number, most: number, bold = false): string[] {
  // No more of a text is looked at than could ever fit.
  const shown = text.slice(0, Math.ceil((most * width) / (NARROWEST * size)) + 1);
  const lines: string[] = [];
  let line = '';
  const fits = (one: string) => textWidth(one, size, bold) <= width;
  for (const word of shown.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (fits(longer)) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    line = '';
    if (lines.length > most) break;
    for (const { segment } of graphemes.segment(word)) {
      if (line !== '' && !fits(line + segment)) {
        lines.push(line);
        line = '';
      }
      line += segment;
    }
  }
  if (line !== '') lines.push(line);
  if (lines.length <= most && shown.length === text.length) return lines;
  const kept = lines.slice(0, most);
  let last = kept.pop() ?? '';
  while (last !== '' && !fits(`${last}…`))
    last = Array.from(graphemes.segment(last), (one) => one.segment)
      .slice(0, -1)
      .join('');
  return [...kept, `${last}…`];
}

const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' });

/** Of any character, in parts of the size. */
const NARROWEST = 0.29;

function widthOf(segment: string): number {
  const code = segment.codePointAt(0) ?? 0;
  if (code < 0x7f)
    return ASCII[segment] ?? (segment >= 'A' && segment <= 'Z' ? 0.79 : segment >= '0' && segment <= '9' ? 0.64 : 0.65);
  if (code < 0x250) return 0.8;
  // Wide in a terminal is wide on a page; whatever else there is, is no wider than a capital W.
  return stringWidth(segment) > 1 ? 1.1 : 1.05;
}

const ASCII: Readonly<Record<string, number>> = {
  ' ': 0.32,
  i: 0.29,
  j: 0.29,
  l: 0.29,
  I: 0.3,
  f: 0.36,
  t: 0.4,
  r: 0.42,
  m: 0.98,
  w: 0.82,
  M: 0.87,
  W: 0.99,
  '@': 1,
  '%': 0.96,
  '&': 0.78,
  '.': 0.32,
  ',': 0.32,
  ':': 0.34,
  ';': 0.34,
  "'": 0.29,
  '|': 0.34,
  '!': 0.41,
  '(': 0.4,
  ')': 0.4,
  '-': 0.37,
  '/': 0.34,
  '+': 0.84,
  '=': 0.84,
  '<': 0.84,
  '>': 0.84,
  '~': 0.84,
  '#': 0.84,
  '^': 0.84,
};
