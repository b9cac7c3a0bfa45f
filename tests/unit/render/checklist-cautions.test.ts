/** A checklist says what doses and contraindications rest on, and what comes first; the sheet of a case says it as well. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { checklistHtml, checklistMarkdown, checklistOf, createWorkspace } from '@curette/server';
import { describe, expect, test } from 'vitest';
import { TODAY } from '../../support/fixture.ts';
import { exampleSheet } from './sheets.ts';

const CAUTION = 'Local codes, product labelling and licensed practice come first.';

/** The sheet of the first case of a demo file. */
function caseSheet(path: string) {
  const workspace = createWorkspace(
    (id) => {
      try {
        return { type: 'bytes', bytes: readFileSync(join(import.meta.dirname, '../../../examples', id)) };
      } catch {
        return { type: 'absent' };
      }
    },
    () => TODAY,
  );
  const facts = workspace.facts(path);
  const ofCase = facts?.cases[0];
  if (!facts || !ofCase?.protocol) throw new Error(`no case in ${path}`);
  return checklistOf(facts, ofCase.protocol, workspace.facts, ofCase);
}

describe.each([
  ['of a protocol', () => exampleSheet('protocols/grafted_socket.curette')],
  ['of a case', () => caseSheet('cases/grafted_sockets.curette')],
])('the checklist %s', (_, made) => {
  const sheet = made();
  const sourceOf = (number: number | null | undefined) => (number ? sheet.sources[number - 1]?.citation : undefined);

  test('says what comes first, on paper and as text', () => {
    expect(checklistHtml(sheet)).toContain(CAUTION);
    expect(checklistMarkdown(sheet)).toContain(CAUTION);
  });

  test('says of a medicine how much may be given, by whose figures', () => {
    const numbing = sheet.materials.find(({ name }) => name === 'Numbing');
    expect(numbing?.facts.map(({ name, value }) => `${name} ${value}`)).toContain(
      'ceiling per mass 7 mg/kg (ceilings: Canadian table)',
    );
    for (const { source } of numbing?.facts ?? []) expect(sourceOf(source)).toBeDefined();
    for (const written of [checklistHtml(sheet), checklistMarkdown(sheet).replaceAll('\\', '')])
      expect(written).toMatch(/ceiling per mass 7 mg\/kg/);
  });

  test('says nothing of the kind of what is not given in doses', () => {
    expect(sheet.materials.filter(({ facts }) => facts.length > 0).map(({ name }) => name)).toEqual(['Numbing']);
  });

  test('says of each exclusion that a material or an action has of its own what it rests on', () => {
    const source = (text: string) => sourceOf(sheet.exclusions.find((one) => one.text.includes(text))?.source);
    expect(source('sulfite')).toContain('Prescribing information, articaine');
    expect(source('cyanoacrylate')).toContain('Octyl cyanoacrylate');
    expect(source('high dose antiresorptive')).toContain('Position paper');
    expect(sheet.exclusions.filter((one) => one.source === null)).toEqual([]);
  });
});
