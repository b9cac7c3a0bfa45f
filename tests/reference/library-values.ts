/** What the shipped library states, as it is written there, for checks against the tables it came from. */
import { forEachStatement, parse, type Statement } from '@curette/grammar';
import { libraryFiles } from '@curette/shared';

/** One declaration of a library file. */
export interface Declared {
  /** its first line */
  readonly name: string;
  /** the doc comment, without its marks */
  readonly doc: string;
  /** lines of its body, by their first word; what is written twice stands twice */
  readonly lines: ReadonlyMap<string, readonly string[]>;
}

/**
 * A declaration of a file of the library.
 *
 * @param file `std/grafting`, say
 * @param head how its first line begins: `allograft cortical_allograft`, `rule drill_stops_short`
 */
export function declared(file: string, head: string): Declared {
  const found = declarations(file).filter(({ headline }) => headline === head || headline.startsWith(`${head} `));
  const [first] = found;
  if (!first || found.length > 1) throw new Error(`${found.length} declarations of ${file} begin with "${head}"`);
  return first.declared;
}

/** What a declaration says of one thing, spaces made single: `250..1000 um`; without its source. */
export function stated(file: string, head: string, property: string): string {
  const lines = declared(file, head).lines.get(property) ?? [];
  if (lines.length !== 1) throw new Error(`"${head}" says ${lines.length} times "${property}"`);
  return (lines[0] ?? '').replace(/ source \w+$/, '');
}

/** The heads of all declarations of a file, with their bodies. */
export function declarations(file: string): { readonly headline: string; readonly declared: Declared }[] {
  const shipped = libraryFiles.find(({ path }) => path === `${file}.curette`);
  if (!shipped) throw new Error(`the library has no ${file}`);
  const { text } = shipped;
  const found: { headline: string; declared: Declared; lines: Map<string, string[]> }[] = [];
  forEachStatement(parse(text), (statement: Statement, start, parents) => {
    const line = text
      .slice(start + statement.head.start, start + statement.head.end)
      .replace(/\s+/g, ' ')
      .trim();
    if (parents.length === 0) {
      const lines = new Map<string, string[]>();
      found.push({
        headline: line,
        lines,
        declared: { name: line, doc: (statement.doc ?? '').replace(/\s+/g, ' '), lines },
      });
      return;
    }
    const [word = '', ...rest] = line.split(' ');
    const lines = found.at(-1)?.lines;
    if (parents.length === 1) lines?.set(word, [...(lines.get(word) ?? []), rest.join(' ')]);
  });
  return found;
}
