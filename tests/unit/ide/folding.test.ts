import { expect, test } from 'vitest';
import { foldsIn } from '../../support/structure.ts';

test('blocks over several lines, each within the one around it', () => {
  expect(
    foldsIn(`
protocol p "P" {
  team { surgeon }
  visit one "One" {
    decide wall {
      option intact { }
    }
  }
}
`),
  ).toEqual(['block: protocol p "P" { … }', 'block: visit one "One" { … }', 'block: decide wall { … }']);
});

test('a doc comment and a remark of several lines', () => {
  expect(
    foldsIn('// One.\n// Two.\n/// Three.\n/// Four.\nkind k is material\n/// Alone.\nkind l is material\n'),
  ).toEqual(['comment: // One. … // Two.', 'comment: /// Three. … /// Four.']);
});

test('files in use that stand together', () => {
  expect(foldsIn('use std/oral\nuse std/grafting\n\nuse std/wound\nkind k is material\nuse a\n')).toEqual([
    'use: use std/oral … use std/wound',
  ]);
});

test('sections below remarks that stand alone', () => {
  expect(
    foldsIn(`
// What this file is about.

kind a is material

// ── tools ──

kind b is instrument
kind c is instrument

// ── places ──
// Where they are.

// About d alone.
kind d is place
`),
  ).toEqual([
    'section: // ── tools ── … kind c is instrument',
    'comment: // ── places ── … // Where they are.',
    'section: // Where they are. … kind d is place',
  ]);
});

test('a section ends with the block that it is in', () => {
  expect(
    foldsIn('kind k is material {\n  a : mass\n\n  // How it wears.\n\n  states new -> worn\n}\nkind l is material\n'),
  ).toEqual(['block: kind k is material { … }', 'section: // How it wears. … states new -> worn']);
});

test('a block that nobody has closed yet', () => {
  expect(foldsIn('protocol p "P" {\n  visit one "One" {\n    note "x"\n')).toContain(
    'block: visit one "One" { … note "x"',
  );
});

test('what looks like a remark in a text is none', () => {
  expect(foldsIn('note "https://a.example"\nnote "//"\n')).toEqual([]);
});
