/** What the editor says of sets of figures, and offers where they are written. */
import { describe, expect, test } from 'vitest';
import { completionsAt, definitionsAt, hoverAt, namesAt, outlineOf } from '../../support/editor.ts';

const sets = `
//- sets.curette
source leaflet "Leaflet" { by "The maker", year 2024 }
kind drug "drug" is material {
  most  : mass from doses
  onset : time
}
kind gauze "gauze" is material
drug strong "Strong"
drug mild "Mild"
gauze swab "Swab"
/// For grown-ups.
figures of_leaflet "Ceilings of the leaflet" of doses {
  strong { most 500 mg source leaflet }
}
figures of_society "Ceilings of the society" of doses {
  strong { most 300 mg source leaflet }
}
action give (drug d) (mass dose)
`;

const using = (text: string) => `
//- main.curette
use sets
${text}${sets}`;

const inProtocol = (listed: string, applied = 'apply of_society\n') =>
  using(`${applied}protocol p "P" {
  materials { ${listed} }
  visit v "V" { give strong 100 mg }
}
`);

describe('hover', () => {
  test('of a set tells whose figures they are and whether they count here', () => {
    expect(hoverAt(using('apply of_le$0aflet because "Agreed"\n'))).toMatchInlineSnapshot(`
      "of_leaflet

      **Ceilings of the leaflet** \`of_leaflet\`, a set of doses

      For grown-ups.

      Applied here.

      **strong**
      - most: 500 mg (The maker, Leaflet, 2024)

      _Local codes, product labelling and licensed practice come first._"
    `);
    expect(hoverAt(using('apply of_society\nfigures of_house "House" of doses { }\napply of_ho$0use\n'))).toContain(
      'Applied here, and so is another set: neither counts.',
    );
  });

  test('of a group tells the sets there are, and which of them is applied', () => {
    expect(hoverAt(using('apply of_society\nfigures of_house "House" of do$0ses { }\n'))).toMatchInlineSnapshot(`
      "doses

      **doses**: a group of sets of figures, of which one is applied

      - \`of_house\` House
      - \`of_leaflet\` Ceilings of the leaflet
      - \`of_society\` Ceilings of the society

      Applied here: "Ceilings of the society".

      _Local codes, product labelling and licensed practice come first._"
    `);
    expect(hoverAt(using('kind balm is drug { least : mass from do$0ses }\n'))).toContain('None is applied here.');
  });

  test('of an entry and of a thing tells the figure of the set that is applied, and which set that is', () => {
    expect(hoverAt(inProtocol('str$0ong'))).toContain(
      '- most: 300 mg (The maker, Leaflet, 2024), doses: Ceilings of the society',
    );
    expect(hoverAt(inProtocol('a : str$0ong'))).toContain('doses: Ceilings of the society');
    expect(hoverAt(using('apply of_society\nfigures of_house "House" of doses { str$0ong { } }\n'))).toContain(
      'doses: Ceilings of the society',
    );
  });

  test('tells what the set that is applied leaves open, and that none is', () => {
    expect(hoverAt(inProtocol('mi$0ld'))).toContain(
      '- most: not stated by "Ceilings of the society", the set of doses that is applied',
    );
    expect(hoverAt(inProtocol('str$0ong', ''))).toContain('- most: from a set of doses, and none is applied');
  });
});

test('definitions of sets, groups, entries and properties are found', () => {
  expect(definitionsAt(using('apply of_le$0aflet\n'))).toEqual(['sets.curette:11 of_leaflet']);
  expect(definitionsAt(using('figures of_house "House" of do$0ses { }\n'))).toEqual(['sets.curette:3 most']);
  expect(definitionsAt(using('figures of_house "House" of doses { str$0ong { } }\n'))).toEqual([
    'sets.curette:7 strong',
  ]);
  expect(definitionsAt(using('figures of_house "House" of doses { strong { mo$0st 1 mg } }\n'))).toEqual([
    'sets.curette:3 most',
  ]);
});

describe('completion', () => {
  test('after "apply" offers the sets there are', () => {
    expect(completionsAt(using('apply $0\n')).offered).toEqual([
      'of_leaflet: doses: Ceilings of the leaflet',
      'of_society: doses: Ceilings of the society',
    ]);
    expect(namesAt(using('apply of_leaflet $0\n'))).toContain('because');
  });

  test('after "of" and "from" offers the groups', () => {
    expect(namesAt(using('figures of_house "House" $0\n'))).toEqual(['of']);
    expect(namesAt(using('figures of_house "House" of $0\n'))).toEqual(['doses', 'ceilings']);
    expect(namesAt(using('kind balm is drug {\n  least : mass from $0\n}\n'))).toEqual(['doses', 'ceilings']);
    expect(namesAt(using('kind balm is drug {\n  least : mass $0\n}\n'))).toContain('from');
  });

  test('in a set offers what takes something from its group, and in its block what that is', () => {
    expect(namesAt(using('figures of_house "House" of doses {\n  mild { }\n  $0\n}\n'))).toEqual([
      'strong',
      'drug',
      'note',
    ]);
    expect(namesAt(using('figures of_house "House" of doses {\n  mild {\n    $0\n  }\n}\n'))).toEqual(['most']);
    expect(namesAt(using('figures of_house "House" of doses { mild { most 3 $0 } }\n'))).toContain('mg');
  });

  test('in an entry does not offer what comes from a set', () => {
    expect(namesAt(using('drug own "Own" {\n  $0\n}\n'))).toEqual(expect.arrayContaining(['onset']));
    expect(namesAt(using('drug own "Own" {\n  $0\n}\n'))).not.toContain('most');
  });

  test('at the beginning of a line offers both words', () => {
    expect(namesAt(using('$0\n'))).toEqual(expect.arrayContaining(['figures', 'apply']));
  });
});

test('the outline has sets with what they speak of, and what is applied', () => {
  expect(outlineOf(using('figures of_house "House" of doses {\n  mild { most 1 mg }\n}\napply of_house\n$0'))).toBe(
    'of_house — House\n  mild\napply of_house',
  );
});
