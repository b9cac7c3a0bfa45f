import { forEachStatement, parse, pathAt, type Span } from '@curette/grammar';
import { expect, test } from 'vitest';
import { sample } from './samples.ts';
import { at } from './show.ts';

const tree = parse(sample);

test('a name lies on exactly its letters, a text on its quotes, everything inside its statement', () => {
  let names = 0;
  forEachStatement(tree, (statement, start) => {
    const inside = (value: unknown): void => {
      if (typeof value !== 'object' || value === null) return;
      if (Array.isArray(value)) {
        for (const part of value) inside(part);
        return;
      }
      if ('start' in value && 'end' in value) {
        const span = value as Span & { text?: unknown; type?: unknown; value?: unknown };
        expect(span.start).toBeGreaterThanOrEqual(0);
        expect(span.end).toBeLessThanOrEqual(statement.length);
        expect(span.end).toBeGreaterThanOrEqual(span.start);
        if (typeof span.text === 'string' && !/^\d+$/.test(span.text)) {
          names++;
          expect(at(sample, span, start).replace(/\s+/g, ' ')).toBe(span.text);
        }
        if (span.type === 'text') expect(at(sample, span, start)).toMatch(/^".*"$/);
      }
      for (const [key, part] of Object.entries(value)) if (key !== 'body') inside(part);
    };
    inside(statement);
  });
  expect(names).toBeGreaterThan(250);
});

test('a statement runs from its doc comment to the end of its block', () => {
  forEachStatement(tree, (statement, start) => {
    const text = sample.slice(start, start + statement.length);
    expect(text).toBe(text.trim());
    const last = statement.body?.close ?? statement.head.end - 1;
    expect(last + 1).toBe(statement.length);
    if (statement.body !== undefined) {
      expect(at(sample, { start: statement.body.open, end: statement.body.open + 1 }, start)).toBe('{');
      expect(text.endsWith('}')).toBe(true);
    }
    expect(text.startsWith('///')).toBe(statement.doc !== undefined);
    expect(at(sample, statement.head, start)).toMatch(/^[^/\s{}].*[^\s{}]$|^\S$/s);
  });
});

test('ids are unique', () => {
  const ids: number[] = [];
  forEachStatement(tree, (statement) => ids.push(statement.id));
  expect(new Set(ids).size).toBe(ids.length);
  expect(Math.max(...ids)).toBeLessThan(tree.nextId);
});

test('parts of a value lie on their words', () => {
  const text =
    'protocol p {\n  visit v {\n    lay cover.top 1.5..2 N.cm by 3 mm on graft takes 10..40 min usually 12 min\n  }\n}\n';
  const placed = pathAt(parse(text), text.indexOf('graft')).at(-1);
  const step = placed?.statement;
  if (step?.type !== 'step') throw new Error('no step there');
  const words = (span: Span | undefined): string | undefined => span && at(text, span, placed?.start);
  expect(step.parts.map(words)).toEqual(['cover.top 1.5..2 N.cm by 3 mm', 'on graft']);
  expect(words(step.parts[0]?.arguments[0]?.thing)).toBe('cover.top');
  const amount = step.parts[0]?.arguments[0]?.amount;
  expect(words(amount)).toBe('1.5..2 N.cm by 3 mm');
  expect(amount?.type === 'size' && amount.sides.map(words)).toEqual(['1.5..2 N.cm', '3 mm']);
  expect(words(step.takes?.duration)).toBe('10..40 min');
  expect(words(step.takes?.duration?.high?.unit)).toBe('min');
  expect(words(step.takes?.usually)).toBe('12 min');
});

test('a condition lies on all of its words, brackets of its parts included', () => {
  const text = 'rule r {\n  expect (a + b) * 2 <= min(c, d)\n}\n';
  const placed = pathAt(parse(text), text.indexOf('min')).at(-1);
  if (placed?.statement.type !== 'expect') throw new Error('no line there');
  const { condition } = placed.statement;
  expect(condition && at(text, condition, placed.start)).toBe('(a + b) * 2 <= min(c, d)');
});

test('the path to an offset names what is around it, outermost first', () => {
  const path = pathAt(tree, sample.indexOf('Shape the filler'));
  expect(path.map(({ statement }) => statement.type)).toEqual(['protocol', 'visit', 'decide', 'option', 'note']);
  expect(path.map(({ start }) => sample.slice(start).split(/\s/, 1)[0])).toEqual([
    '///',
    'visit',
    'decide',
    'option',
    'note',
  ]);
  const line = sample.indexOf('    lay cover on graft');
  expect(pathAt(tree, line + '    lay cover on graft'.length).at(-1)?.statement.type).toBe('step');
  expect(pathAt(tree, line).at(-1)?.statement.type).toBe('visit');
  expect(pathAt(tree, sample.length)).toEqual([]);
});
