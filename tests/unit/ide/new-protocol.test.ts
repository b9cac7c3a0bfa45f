import { parse } from '@curette/grammar';
import { createDrafter, createWorkspace, formatDocument, nameFor } from '@curette/server';
import { skeletonFiles } from '@curette/shared';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const workspace = createWorkspace(
  () => ({ type: 'absent' }),
  () => '2027-01-04',
);
const drafter = createDrafter(workspace.snapshot());

function all<T>(work: Generator<void, T>): T {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
  }
}

/** What is wrong in a text that stands alone, as sentences. */
function wrongIn(text: string): string[] {
  workspace.open('draft.curette', text);
  const problems = workspace.facts('draft.curette')?.problems ?? [];
  return problems.filter(({ severity }) => severity !== 'advice').map(({ code, message }) => `${code}: ${message}`);
}

const choicesOf = new Map(
  skeletonFiles.map(({ name }) => {
    const choices = all(drafter.choices(name));
    if (!choices) throw new Error(`nothing can be chosen for ${name}`);
    return [name, choices] as const;
  }),
);

describe.each([...choicesOf])('a new %s', (operation, choices) => {
  test('is sound as it is offered, and says what it is about', () => {
    const text = skeletonFiles.find(({ name }) => name === operation)?.text ?? '';
    expect(wrongIn(text)).toEqual([]);
    const { about, title } = drafter.operations().find(({ name }) => name === operation) ?? {};
    expect(about).not.toBe('');
    expect(title).not.toBe(operation);
    expect(choices.materials.length).toBeGreaterThan(0);
  });

  test('is sound whatever is chosen', () => {
    const visits = fc.subarray(choices.visits.map(({ name }) => name));
    const materials = fc.record(
      Object.fromEntries(
        choices.materials.map(({ name, entry, others }) => [
          name,
          fc.constantFrom(entry, ...others.map((one) => one.entry)),
        ]),
      ),
    );
    fc.assert(
      fc.property(visits, materials, (chosen, swapped) => {
        const drafted = all(
          drafter.draft({ operation, title: 'Ours, "as taught"', visits: chosen, materials: swapped }),
        );
        expect(wrongIn(drafted?.text ?? 'none')).toEqual([]);
        expect(drafted?.text.slice(drafted.titleAt.start, drafted.titleAt.end)).toBe('Ours, \\"as taught\\"');
        expect(parse(drafted?.text ?? '').body.items.some(({ type }) => type === 'protocol')).toBe(true);
      }),
      { numRuns: 8 },
    );
  });

  test('has what is chosen, one choice at a time', () => {
    const everyVisit = choices.visits.map(({ name }) => name);
    for (const { name, others } of choices.materials)
      for (const { entry } of others.slice(0, 2)) {
        const drafted = all(
          drafter.draft({ operation, title: 'Ours', visits: everyVisit, materials: { [name]: entry } }),
        );
        expect(drafted?.kept).toEqual([]);
        expect(drafted?.text).toMatch(new RegExp(`^ +${name} *: ${entry}\\b`, 'm'));
      }
    for (const { name, optional } of choices.visits) {
      const visits = everyVisit.filter((other) => other !== name);
      const drafted = all(drafter.draft({ operation, title: 'Ours', visits, materials: {} }));
      expect(new RegExp(`^  visit ${name}\\b`, 'm').test(drafted?.text ?? '')).toBe(!optional);
      expect(drafted?.kept.length).toBe(optional ? 0 : 1);
    }
  });
});

test('a choice that would not be sound is left out, and told', () => {
  const [operation = '', choices] = [...choicesOf][0] ?? [];
  const [material] = choices?.materials ?? [];
  const drafted = all(
    drafter.draft({ operation, title: 'Ours', visits: [], materials: { [material?.name ?? '']: 'nothing_known' } }),
  );
  expect(drafted?.kept.some((sentence) => sentence.includes('nothing known'))).toBe(true);
  expect(wrongIn(drafted?.text ?? '')).toEqual([]);
});

test('an operation that nobody knows has no draft', () => {
  expect(all(drafter.choices('unheard_of'))).toBeUndefined();
});

test.each([
  ['Grafted socket, first molar', 'grafted_socket_first_molar'],
  ['3 stitches', 'protocol_3_stitches'],
  ['With', 'protocol_with'],
  ['…', 'protocol'],
  ['Größe', 'größe'],
])('a protocol called %s is named %s', (title, name) => {
  expect(nameFor(title)).toBe(name);
});

test('the texts have the layout of the language', () => {
  for (const { text } of skeletonFiles) expect(formatDocument(text, parse(text))).toEqual([]);
});
