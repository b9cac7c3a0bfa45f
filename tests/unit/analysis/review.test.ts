import { createWorkspace } from '@curette/server';
import { expect, test } from 'vitest';

function asked(head: string, today: () => string) {
  const text = `protocol recall "Recall visit" {\n  version 1.0.0\n  owner "The office"\n  ${head}\n  visit look "Look" {\n    note "Probe"\n  }\n}\n`;
  const workspace = createWorkspace(
    (id) => (id === 'main.curette' ? { type: 'text', text } : { type: 'absent' }),
    today,
  );
  const codes = () => workspace.facts('main.curette')?.problems.map(({ code }) => code);
  return { workspace, codes };
}

const codesOf = (head: string, today: string) => asked(head, () => today).codes();

test.each([
  ['2027-02-28', []],
  ['2027-03-01', ['review_overdue']],
])('a month too short ends on its last day: a half year from 31 August, asked on %s', (today, codes) => {
  expect(codesOf('status in_review\n  review every 6 mo\n  reviewed 2026-08-31', today)).toEqual(codes);
});

test('counts from the last of several reviews, and from a review before an approval', () => {
  const two = 'status in_review\n  review every 12 mo\n  reviewed 2026-01-01\n  reviewed 2024-01-01';
  expect(codesOf(two, '2026-06-01')).toEqual([]);
  const later = 'status in_review\n  review every 12 mo\n  reviewed 2024-01-01\n  approved 2026-01-01';
  expect(codesOf(later, '2026-06-01')).toContain('review_overdue');
});

test.each(['draft', 'retired'])('nobody is asked to review what is %s', (status) => {
  expect(codesOf(`status ${status}\n  review every 12 mo\n  reviewed 2020-01-01`, '2026-06-01')).toEqual([]);
});

test('what is in review needs no day yet', () => {
  expect(codesOf('status in_review\n  review every 12 mo', '2026-06-01')).toEqual([]);
});

test('a day that has not come, and a time that is none, are told', () => {
  expect(codesOf('status in_review\n  reviewed 2026-06-02', '2026-06-01')).toEqual(['review_date']);
  expect(codesOf('status in_review\n  review every 12 mm', '2026-06-01')).toEqual(['wrong_measure']);
});

test('the same text is judged anew on another day', () => {
  let day = '2026-06-01';
  const { workspace, codes } = asked('status in_review\n  review every 12 mo\n  reviewed 2026-01-01', () => day);
  expect(codes()).toEqual([]);
  day = '2027-06-01';
  workspace.refreshAll();
  expect(codes()).toEqual(['review_overdue']);
});
