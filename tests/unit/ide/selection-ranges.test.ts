import { describe, expect, test } from 'vitest';
import { selectionsAt } from '../../support/structure.ts';

const around = (line: string) => `protocol p "P" {\n  visit one "One" {\n    ${line}\n    note "x"\n  }\n}\n`;
/** What the selection grows to within the line. */
const inLine = (line: string) => {
  const all = selectionsAt(around(line));
  return all.slice(
    0,
    all.findIndex((words) => words.includes('⏎')),
  );
};

describe('a selection grows by what belongs together', () => {
  test('word, range, size, part, what is done, step', () => {
    expect(inLine('trim cover to 7..$09 mm by 8 mm with scissors by surgeon')).toEqual([
      '9',
      '9 mm',
      '7..9 mm',
      '7..9 mm by 8 mm',
      'to 7..9 mm by 8 mm',
      'trim cover to 7..9 mm by 8 mm with scissors',
      'trim cover to 7..9 mm by 8 mm with scissors by surgeon',
    ]);
  });

  test('word, path, comparison, condition, line', () => {
    expect(inLine('wait until graft is wetted for gra$0ft.soak')).toEqual([
      'graft',
      'graft.soak',
      'graft is wetted for graft.soak',
      'wait until graft is wetted for graft.soak',
    ]);
  });

  test('a clause, from the word it begins with', () => {
    expect(inLine('clean gap takes 1 min by surgeon, assis$0tant because "So"')).toEqual([
      'assistant',
      'by surgeon, assistant',
      'clean gap takes 1 min by surgeon, assistant because "So"',
    ]);
  });

  test('word of a text, what is quoted, the text, its clause', () => {
    expect(inLine('clean gap because "It st$0ays wet"')).toEqual([
      'stays',
      'It stays wet',
      '"It stays wet"',
      'because "It stays wet"',
      'clean gap because "It stays wet"',
    ]);
  });
});

test('then by blocks: inside, braces, statement, and the file', () => {
  const all = selectionsAt(around('cle$0an gap'));
  expect(all).toEqual([
    'clean',
    'clean gap',
    'clean gap⏎note "x"',
    '{⏎clean gap⏎note "x"⏎}',
    'visit one "One" {⏎clean gap⏎note "x"⏎}',
    '{⏎visit one "One" {⏎clean gap⏎note "x"⏎}⏎}',
    'protocol p "P" {⏎visit one "One" {⏎clean gap⏎note "x"⏎}⏎}',
    'protocol p "P" {⏎visit one "One" {⏎clean gap⏎note "x"⏎}⏎}⏎',
  ]);
});

test('a doc comment belongs to what it stands above', () => {
  expect(selectionsAt('/// Of the ba$0nk.\nkind k is material\nkind l is material\n')).toEqual([
    'bank',
    'Of the bank.',
    '/// Of the bank.',
    '/// Of the bank.⏎kind k is material',
    '/// Of the bank.⏎kind k is material⏎kind l is material⏎',
  ]);
});

test('in an empty file there is nothing to select', () => {
  expect(selectionsAt('$0')).toEqual(['⏎']);
});
