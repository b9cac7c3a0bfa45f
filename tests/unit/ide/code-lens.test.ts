import { expect, test } from 'vitest';
import { lensesOf } from '../../support/editor.ts';
import { inVisit } from './house.ts';

test('over a visit stands how long the chair is occupied', () => {
  const lines = `
pause check_in
clean gap takes 10..35 min`;
  expect(lensesOf(inVisit(lines))).toEqual(['visit first "First visit": In the chair 11–37 min']);
});

test('and how the limits on time in it stand', () => {
  const lines = `
wet graft with saline
clean gap takes 10..35 min
fill gap with graft`;
  expect(lensesOf(inVisit(lines))).toEqual(['visit first "First visit": In the chair 16–47 min; 1 limit holds']);
  expect(lensesOf(inVisit(lines.replace('10..35', '5..35')))).toEqual([
    'visit first "First visit": In the chair 11–47 min; 1 limit can break',
  ]);
  expect(lensesOf(inVisit(lines.replace('10..35 min', '70 min')))).toEqual([
    'visit first "First visit": In the chair 76–82 min; 1 limit always breaks',
  ]);
});

test('a limit that is read on several paths counts once, as on the worst of them', () => {
  const lines = `
decide wall "Look at the wall" {
  option intact { wet graft with saline }
  option lost {
    wet graft with saline
    clean gap takes 12 min
  }
}
fill gap with graft on packer`;
  expect(lensesOf(inVisit(lines))).toEqual(['visit first "First visit": In the chair 6–24 min; 1 limit always breaks']);
});

test('what nothing states the length of leaves the end open', () => {
  const lines = `
clean gap
repeat until "Clean" {
  clean gap takes 2 min
}`;
  expect(lensesOf(inVisit(lines))).toEqual(['visit first "First visit": In the chair at least 3 min']);
});

test('a visit in which nothing takes time has none', () => {
  expect(lensesOf(inVisit('note "Nothing yet"'))).toEqual([]);
});

test('where steps say how long they usually take, so does the visit', () => {
  const lines = `
clean gap takes 10..35 min usually 15 min
clean gap takes 20..90 min usually 35 min`;
  const [lens] = lensesOf(inVisit(lines));
  // Means of PERT are 17.5 and 41.7 min; the median of such a sum is a little below their 59 min.
  expect(lens).toMatch(/In the chair 30–125 min, usually about 5\d min, within 7\d min in nine of ten$/);
});

test('what is usual of a few steps says nothing of the visit', () => {
  const lines = `
clean gap takes 10..35 min usually 15 min
clean gap takes 20..90 min
wet graft with saline`;
  expect(lensesOf(inVisit(lines))[0]).not.toContain('usually');
});
