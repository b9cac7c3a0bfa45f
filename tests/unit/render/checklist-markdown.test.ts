import { checklistMarkdown } from '@curette/server';
import MarkdownIt from 'markdown-it';
import { describe, expect, test } from 'vitest';
import { hostileProtocol, hostileTexts } from './hostile.ts';
import { exampleSheet, sheetOf } from './sheets.ts';

/** Reads as permissively as any reader does: HTML is let through and addresses become links. */
const reader = new MarkdownIt({ html: true, linkify: true });

/** What a reader makes of a text: its elements in order, without the texts. */
function elements(markdown: string): string[] {
  return reader
    .parse(markdown, {})
    .flatMap((token) => [token, ...(token.children ?? [])])
    .map(({ type }) => type)
    .filter((type) => type !== 'text' && type !== 'text_special' && type !== 'softbreak');
}

describe('texts of a protocol stay text', () => {
  const plain = elements(checklistMarkdown(sheetOf(hostileProtocol('plain'))));

  test.each(hostileTexts)('%j adds no markup', (text) => {
    expect(elements(checklistMarkdown(sheetOf(hostileProtocol(text))))).toEqual(plain);
  });

  test('what was written is what is read', () => {
    const rendered = reader.render(checklistMarkdown(sheetOf(hostileProtocol('a * b <c> [d](e) 1. `f`'))));
    expect(rendered).toContain('<h1>a * b &lt;c&gt; [d](e) 1. `f`</h1>');
  });
});

test('a faulty protocol is marked, a sound one is not', () => {
  expect(checklistMarkdown(exampleSheet('drafts/grafted_socket_draft.curette'))).toContain('**NOT FIT FOR USE**');
  expect(checklistMarkdown(exampleSheet('protocols/grafted_socket.curette')).toLowerCase()).not.toContain('not fit');
});

test('a sheet as it reads', () => {
  const sheet = sheetOf(`
kind cap "cap" is material {
  states off -> on -> gone
  must end off or gone by end of protocol because "Nobody else knows of it"
}
action cap "Cap" (cap c) {
  makes c on
  takes 1 min
}
finding fit "Fit" {
  tight "Tight"
  loose "Loose"
}
protocol bottle "Closing a bottle" {
  version 0.1.0
  status  draft
  owner   "Cellar"
  team { assistant }
  materials { lid : cap 2 }
  visit closing "Closing" {
    cap lid by assistant
    decide fit "Shake it" {
      option tight { }
      option loose {
        note "Another lid"
      }
    }
    instruct "Lay it down" at home
  }
}
`);
  expect(checklistMarkdown(sheet)).toMatchInlineSnapshot(`
    "# Closing a bottle

    **Version 0.1.0, draft** · **NOT FIT FOR USE**: the checker found 3 errors.

    > A drafting and teaching aid. Local codes, product labelling and licensed practice come first. No patient identifiers on this sheet.

    - Owner: Cellar
    - Team: Assistant

    ## Not fit for use

    - **Line not understood.** Here belongs a state after "-\\>". (line 3)
    - **Unknown state.** A cap is never "gone". It can be off. (line 4)
    - **Line not understood.** Here belongs the new state after "c". (line 7)

    ## Materials

    - [ ] Lid — cap, 2

    ## Visit 1: Closing

    Stated times add up to 60 s.

    - [ ] 1\\. **Cap lid** (Assistant, 60 s)
    - [ ] 2\\. Decide **Fit** — Shake it
      - [ ] *Tight*: go on
      - [ ] *Loose*
        - Another lid
    - [ ] Tell the patient, to take home: Lay it down
    "
  `);
});
