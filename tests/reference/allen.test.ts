/**
 * Relations of intervals against Allen, Maintaining knowledge about temporal intervals, Commun ACM 1983;26:832-843: thirteen relations,
 * six pairs and equality, and rows of the composition table. Read in Alspaugh's digest of it; the numbers of cells are worked out by
 * enumerating intervals, independently of the code under test.
 */
import { describe, expect, test } from 'vitest';
import { compose, inverse, possibleRelations, RELATIONS, type Relation } from '../../server/src/analysis/time/allen.ts';

/** The digest's letters; `i` turns a relation about. */
const LETTERS: Readonly<Record<string, Relation>> = {
  b: 'before',
  m: 'meets',
  o: 'overlaps',
  s: 'starts',
  d: 'during',
  f: 'finishes',
  eq: 'equals',
  bi: 'after',
  mi: 'met by',
  oi: 'overlapped by',
  si: 'started by',
  di: 'contains',
  fi: 'finished by',
};

test('there are thirteen relations: six pairs and equality', () => {
  expect(new Set(RELATIONS)).toEqual(new Set(Object.values(LETTERS)));
  expect(RELATIONS).toHaveLength(13);
  for (const [letter, relation] of Object.entries(LETTERS))
    if (letter !== 'eq')
      expect(inverse(relation)).toBe(LETTERS[letter.endsWith('i') ? letter.slice(0, -1) : `${letter}i`]);
  expect(inverse('equals')).toBe('equals');
});

test.each<[string, [number, number], [number, number]]>([
  ['b', [0, 1], [2, 3]],
  ['m', [0, 1], [1, 2]],
  ['o', [0, 2], [1, 3]],
  ['s', [0, 1], [0, 2]],
  ['d', [1, 2], [0, 3]],
  ['f', [1, 2], [0, 2]],
  ['eq', [0, 1], [0, 1]],
])('%s is what the figure of the paper shows, and of two intervals exactly one holds', (letter, a, b) => {
  expect([...possibleRelations(fixed(a), fixed(b))]).toEqual([named(letter)]);
  expect([...possibleRelations(fixed(b), fixed(a))]).toEqual([inverse(named(letter))]);
});

describe('the composition table', () => {
  const cells = RELATIONS.flatMap((one) => RELATIONS.map((two) => ({ one, two, all: compose(one, two) })));

  test('has 169 cells with 409 entries, 97 of one relation and 3 of all', () => {
    expect(cells).toHaveLength(169);
    expect(cells.reduce((sum, { all }) => sum + all.size, 0)).toBe(409);
    expect(cells.filter(({ all }) => all.size === 1)).toHaveLength(97);
    expect(cells.filter(({ all }) => all.size === 13).map(({ one, two }) => [one, two])).toEqual(
      expect.arrayContaining([
        ['before', 'after'],
        ['after', 'before'],
        ['during', 'contains'],
      ]),
    );
    expect(cells.filter(({ all }) => all.size === 13)).toHaveLength(3);
  });

  test.each(
    `b;b b
     b;m b
     b;d b m o s d
     b;f b m o s d
     m;m b
     m;d o s d
     m;o b
     m;mi f eq fi
     s;f d
     s;d d
     s;si s eq si
     s;m b
     o;o b m o
     o;d o s d
     o;di b m o fi di
     o;oi o s d f eq fi di si oi
     d;b b
     d;d d
     d;o b m o s d
     di;d o s d f eq fi di si oi
     di;o o fi di
     f;m m
     f;fi f eq fi
     d;di b m o s d f eq bi mi oi si di fi`
      .split('\n')
      .map((line) => line.trim().split(' ')),
  )('%s', (cell = '', ...letters) => {
    const [one = '', two = ''] = cell.split(';');
    expect(new Set(compose(named(one), named(two)))).toEqual(new Set(letters.map(named)));
  });

  test('turned about, a cell is the cell of the inverses in the other order', () => {
    for (const { one, two, all } of cells)
      expect(new Set([...all].map(inverse))).toEqual(new Set(compose(inverse(two), inverse(one))));
  });

  test('equality changes nothing', () => {
    for (const relation of RELATIONS) {
      expect([...compose('equals', relation)]).toEqual([relation]);
      expect([...compose(relation, 'equals')]).toEqual([relation]);
    }
  });
});

function named(letter: string): Relation {
  const relation = LETTERS[letter];
  if (relation === undefined) throw new Error(`no relation ${letter}`);
  return relation;
}

function fixed([start, end]: readonly [number, number]): Parameters<typeof possibleRelations>[0] {
  return { start: { lo: start, hi: start }, end: { lo: end, hi: end } };
}
