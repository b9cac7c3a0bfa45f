import { expect, test } from 'vitest';
import { read } from './show.ts';

test.each([
  ['a preposition', 'lay cover\n  on graft', 'step verb=lay parts=(cover) on(graft)'],
  ['"by"', 'lay cover\nby surgeon', 'step verb=lay parts=(cover) by=[surgeon]'],
  ['"because"', 'lay cover\nbecause "…"', 'step verb=lay parts=(cover) because="…"'],
  ['"takes" among steps', 'lay cover\n    takes 5 min', 'step verb=lay parts=(cover) takes=5 min'],
  ['"source" among steps', 'lay cover\n    source s', 'step verb=lay parts=(cover) source=s'],
  ['a comma', 'lay cover\n  , sheet', 'step verb=lay parts=(cover, sheet)'],
  ['a comment between', 'lay cover // why\n  // more\n\n  on graft', 'step verb=lay parts=(cover) on(graft)'],
])('%s goes on with the line above', (_, text, shown) => {
  expect(read(text, 'steps')).toBe(shown);
});

test('a line that ends in a comma goes on in one that is indented further', () => {
  expect(read('extract site with periotome,\n  forceps', 'steps')).toBe(
    'step verb=extract parts=(site) with(periotome, forceps)',
  );
});

test('a half-typed line does not swallow the next one', () => {
  expect(read('extract site with periotome,\ndebride socket with curette', 'steps')).toBe(
    'step verb=extract parts=(site) with(periotome) !unreadable[one more thing after ","]\nstep verb=debride parts=(socket) with(curette)',
  );
  expect(read('site :\nsocket : hole', 'given')).toBe(
    'thing name=site !unreadable[what "site" is after ":"]\nthing name=socket kind=hole',
  );
});

test('"by" begins a line of its own in actions, pauses and sources', () => {
  expect(read('takes 5 min\nby surgeon\nsource s', 'action')).toBe(
    'takes duration=5 min\nby roles=[surgeon]\nsource reference source=s',
  );
  expect(read('title "T"\nby "A body"', 'source')).toBe(
    'value name=title values=["T"]\nvalue name=by values=["A body"]',
  );
});

test('a block may open on the line below its head', () => {
  expect(read('visit v\n{\n  lay a\n}', 'protocol')).toBe('visit name=v\n  {steps}\n  step verb=lay parts=(a)');
});

test('"otherwise" on the line below belongs to the check above', () => {
  expect(read('verify depth of s within 5 mm\n  otherwise { close }\nlay a', 'steps')).toBe(
    'verify what=depth of=s within=5 mm otherwise=true\n  {steps}\n  step verb=close\nstep verb=lay parts=(a)',
  );
});

test('in lists a comma parts lines, but a list of values stays together', () => {
  expect(read('a, b\nc,\nd', 'team')).toBe(
    'team member name=a\nteam member name=b\nteam member name=c\nteam member name=d',
  );
  expect(read('sizes 1, 2,\n 3\ntitle "A", "B"\ndepth 9 mm, opening', 'properties')).toBe(
    'value name=sizes values=[1, 2, 3]\nvalue name=title values=["A", "B"]\nvalue name=depth values=[9 mm]\nvalue name=opening !unreadable[a value after "opening"]',
  );
});

test('the end of a block ends its line', () => {
  expect(read('option a { lay x } option b { }', 'options')).toBe(
    'option values=[[a]]\n  {steps}\n  step verb=lay parts=(x)\noption values=[[b]]\n  {steps}',
  );
});

test('line ends may be those of any system', () => {
  expect(read('lay a\r\nlay b\rlay c\n', 'steps')).toBe(
    'step verb=lay parts=(a)\nstep verb=lay parts=(b)\nstep verb=lay parts=(c)',
  );
});
