import { parseUnit } from '@curette/shared';
import { isDay, isHealthNumber } from './check-digits.ts';

/** What somebody could be known again by. */
export type Identifier = 'name' | 'date' | 'number' | 'telephone' | 'e-mail';

/** A stretch of text that looks like one; offsets in the text. */
export interface Found {
  readonly what: Identifier;
  readonly start: number;
  readonly end: number;
  /** it can hardly be anything else */
  readonly sure: boolean;
}

/**
 * What in a text looks like something that leads to a person. Words alone tell no name from another word: two with capital letters are
 * taken for one when neither is known to be a word. Figures are judged by their form: a dose, a size, a tooth or a list of them has none
 * of these.
 * @param known whether a word, in small letters, is one of the trade's or of every day
 */
export function identifiersIn(text: string, known: (word: string) => boolean): readonly Found[] {
  const found: Found[] = [];
  for (const { what, sure, pattern, is } of PATTERNS)
    for (const match of text.matchAll(pattern)) {
      const [written] = match;
      const start = match.index;
      const end = start + written.length;
      if (is && !is(match, { known, before: text.slice(0, start), after: text.slice(end) })) continue;
      // What is a date is no number as well.
      if (!found.some((other) => start < other.end && other.start < end)) found.push({ what, sure, start, end });
    }
  return found.sort((a, b) => a.start - b.start);
}

interface Around {
  readonly known: (word: string) => boolean;
  readonly before: string;
  readonly after: string;
}

interface Pattern {
  readonly what: Identifier;
  readonly sure: boolean;
  readonly pattern: RegExp;
  readonly is?: (match: RegExpMatchArray, around: Around) => boolean;
}

const MONTH =
  '(?:Jan(?:uary|uar)?|Feb(?:ruary|ruar)?|Mar(?:ch)?|März|Apr(?:il)?|May|Mai|June?|Juni|July?|Juli|Aug(?:ust)?|Sept?(?:ember)?|O[ck]t(?:ober)?|Nov(?:ember)?|De[cz](?:ember)?)';
const YEAR = '(?:19|20)\\d{2}';
const TITLE = '(?:Mr|[Mm]rs|MRS|Ms|Miss|Mx|Dr|Prof|Professor|[Hh]err|[Ff]rau|Mme|Madame|Monsieur|Señora?|Sra)';

/** In the order in which they are asked: what has a form of its own before what is only long. */
const PATTERNS: readonly Pattern[] = [
  { what: 'e-mail', sure: true, pattern: /[\p{L}\d._%+-]+@[\p{L}\d-]+(?:\.[\p{L}\d-]+)+/gu },
  {
    what: 'date',
    sure: true,
    pattern:
      /(?<!\p{L})(?:born|dob|d\.o\.b\.|date of birth|birth ?date|birthday|geb\.|geboren|b\.)(?!\p{L})[^\d\n]{0,20}(\d[\d./-]*\d)/giu,
    is: ([, figures = '']) => new RegExp(`^${YEAR}$`).test(figures) || isDay(figures),
  },
  {
    what: 'date',
    sure: true,
    pattern: new RegExp(`\\b${YEAR}-\\d{1,2}-\\d{1,2}\\b`, 'g'),
    is: ([date]) => isDay(date),
  },
  {
    what: 'date',
    sure: true,
    pattern: new RegExp(`(?<![\\d./-])\\d{1,2}([./-])\\d{1,2}\\1(?:${YEAR}|\\d{2})(?![\\d./-]*\\d)`, 'g'),
    // Teeth are listed with strokes: 11/12/13 is a date only with a year in full.
    is: ([date]) => isDay(date) && (/\D(?:19|20)\d{2}$/.test(date) || date.includes('.')),
  },
  {
    what: 'date',
    sure: true,
    pattern: new RegExp(`\\b\\d{1,2}(?:st|nd|rd|th|\\.)?\\s+(?:of\\s+)?${MONTH}\\.?,?\\s+${YEAR}\\b`, 'gu'),
  },
  {
    what: 'date',
    sure: true,
    pattern: new RegExp(`\\b${MONTH}\\.?\\s+\\d{1,2}(?:st|nd|rd|th)?,?\\s+${YEAR}\\b`, 'gu'),
  },
  {
    what: 'telephone',
    sure: true,
    pattern:
      /(?<!\p{L})(?:tel|telephone|telefon|phone|mobile|cell|fax|handy)\b[.:]?\s*(?:no\.?|nr\.?)?[\s:]*\+?\d[\d\s()/-]{4,}\d/giu,
  },
  {
    what: 'number',
    sure: true,
    pattern:
      /(?<!\p{L})(?:(?:MRN|NHS|SSN|AHV|KVNR|PID)(?:\s*(?:no\.?|nr\.?|number))?|(?:record|chart|file|patient|case|hospital|insurance|policy|passport|Pat\.?|Akte|Fall)[\s-]*(?:no\.?|nr\.?|number|id))[\s:.#-]*[A-Z]{0,3}[-\s]?\d[\d\s./-]{2,}\d/giu,
  },
  { what: 'number', sure: true, pattern: /\b756\.\d{4}\.\d{4}\.\d{2}\b/g },
  { what: 'number', sure: true, pattern: /(?<![\d-])\d{3}-\d{2}-\d{4}(?![\d-])/g },
  {
    what: 'telephone',
    sure: true,
    pattern: /(?<![\d.,])(?:\+|0)\d+(?:[\s()/-]+\d{2,}|\.\d{2,}){1,6}(?!\d)/g,
    is: ([number]) => digitsOf(number) >= 9 && digitsOf(number) <= 15,
  },
  { what: 'telephone', sure: true, pattern: /(?<![\d.-])(?:\(\d{3}\)\s?|\d{3}[-.])\d{3}[-.]\d{4}(?!\d)/g },
  {
    what: 'number',
    sure: true,
    pattern: /(?<![\d.,])\d{3} \d{3} \d{4}(?!\d)/g,
    is: ([number], { after }) => isHealthNumber(number) && !unitBegins(after),
  },
  {
    what: 'number',
    sure: true,
    pattern: /(?<![\p{L}\d.,/:])[A-Z]{0,3}-?\d{7,}(?![.,]?\d)/gu,
    is: (_, { before, after }) => !unitBegins(after) && !NUMBERED.test(before),
  },
  {
    what: 'name',
    sure: true,
    pattern: new RegExp(`(?<!\\p{L})${TITLE}\\.?\\s+(?:\\p{Lu}\\.\\s*)*\\p{L}[\\p{L}'’-]+`, 'gu'),
    is: namesSomebody,
  },
  {
    what: 'name',
    sure: false,
    pattern: /(?<![\p{L}.])\p{Lu}\.(?:\s?-?\p{Lu}\.)*\s?(\p{Lu}\p{Ll}{2,})/gu,
    is: ([, surname = ''], { known }) => !known(surname.toLowerCase()),
  },
  {
    what: 'name',
    sure: false,
    pattern: /(?<!\p{L})(\p{Lu}\p{Ll}{2,}),\s?\p{Lu}\.(?!\p{L})/gu,
    is: ([, surname = ''], { known }) => !known(surname.toLowerCase()),
  },
  {
    what: 'name',
    sure: false,
    pattern:
      /(?<![\p{L}'’-])(\p{Lu}\p{Ll}+)(?:[-'’]\p{L}+)?(?=[^\S\n]+(\p{Lu}\p{Ll}+)(?:[-'’]\p{L}+)?)[^\S\n]+\p{Lu}\p{Ll}+(?:[-'’]\p{L}+)?/gu,
    is: ([, first = '', second = ''], { known }) => !known(first.toLowerCase()) && !known(second.toLowerCase()),
  },
];

/** After `Mrs`, a small letter makes no difference; after the others it is no name. */
function namesSomebody([written]: RegExpMatchArray): boolean {
  const [title = '', ...rest] = written.split(/\s+/);
  return /^(?:[Mm]rs|[Hh]err|[Ff]rau)\b/.test(title) || /^\p{Lu}/u.test(rest.at(-1) ?? '');
}

/** What is known by a long number and is no person: published work, and what a manufacturer has made. */
const NUMBERED =
  /(?:pmid|pmc|doi|isbn|issn|nct|lot|batch|ref|udi|gtin|article|order)(?:\s*(?:no\.?|nr\.?|number))?[\s:.#(-]*$/i;

function unitBegins(after: string): boolean {
  const [, unit] = /^\s?([\p{L}%µμ/[\]]+)/u.exec(after) ?? [];
  return unit !== undefined && !ALSO_WORDS.has(unit) && (parseUnit(unit, new Map()).ok || /^units?$/i.test(unit));
}

/** Units that are words as well. */
const ALSO_WORDS: ReadonlySet<string> = new Set(['in', 'a', 'day', 'month', 'year']);

function digitsOf(text: string): number {
  return text.replace(/\D/g, '').length;
}
