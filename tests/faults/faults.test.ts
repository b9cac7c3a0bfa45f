import { describe, expect, test } from 'vitest';
import { harmless } from './harmless.ts';
import { counts, createJudge } from './judge.ts';
import { faults } from './table.ts';

const judge = createJudge();

test('the protocols are sound before they are edited', () => {
  expect(judge.files.length).toBeGreaterThan(4);
  expect(judge.before).toEqual([]);
});

test('the tables are as large as they have to be, and no row is there twice', () => {
  expect(faults.length).toBeGreaterThanOrEqual(80);
  expect(harmless.length).toBeGreaterThanOrEqual(40);
  const names = [...faults, ...harmless].map(({ name, file }) => `${file}: ${name}`);
  expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
});

describe('a mistake is told where it stands', () => {
  test.each(faults.filter(({ missed }) => missed === undefined))('$file: $name', (fault) => {
    const told = judge.after(fault);
    expect(judge.caught(fault, told), shown(told)).toBe(true);
  });
});

test('a mistake that is not told yet is marked so; take the mark off when it is', () => {
  const missed = faults.filter((fault) => fault.missed !== undefined);
  const caught = missed.filter((fault) => judge.caught(fault, judge.after(fault)));
  expect(caught.map(({ file, name }) => `${file}: ${name}`)).toEqual([]);
});

describe('a harmless edit stays silent', () => {
  test.each(harmless)('$file: $name', (edit) => {
    const told = judge.after(edit).filter(counts);
    if (edit.alarm === undefined) expect(told).toEqual([]);
    else expect(told).not.toEqual([]);
  });
});

function shown(told: ReturnType<typeof judge.after>): string {
  return (
    told.map(({ file, line, severity, name }) => `${severity} in ${file}:${line}: ${name}`).join('\n') || 'nothing'
  );
}
