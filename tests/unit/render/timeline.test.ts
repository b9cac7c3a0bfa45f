/** What a timeline says of a protocol, as data; and as text in columns. */
import { timelineText, unpainted } from '@curette/server';
import { describe, expect, test } from 'vitest';
import { hostileProtocol, hostileTexts } from './hostile.ts';
import { exampleTimeline, rowOf, timelineIn, visitOf } from './timelines.ts';

const KIT = `
finding bleeding "Bleeding" { stopped, brisk }
role surgeon "Surgeon"
kind graft "graft" is material { states dry -> wetted -> packed }
action wet (graft g) {
  makes g wetted
  takes 1 min
}
action pack (graft g) {
  needs g wetted for 10..60 min because "Too soon it floats out" source common_practice
  makes g packed
  takes 5 min
}
action cut (place p) { takes 2..4 min }
action vague (place p)
procedure tidy "Tidy up" (place p) {
  cut p
  cut p
}
`;

const visit = (lines: string, after = '') => `${KIT}
protocol p "P" {
  given { site : place }
  team { surgeon, assistant }
  materials { g : graft }
  visit v "V" {
${lines}
  }
${after}
}
`;

const rowsOf = (lines: string) =>
  visitOf(timelineIn(visit(lines))).rows.map(({ number, label, within }) =>
    [number ?? '-', label, ...within.map((one) => `(${one})`)].join(' '),
  );

describe('rows', () => {
  test('have the numbers of the checklist, and a letter inside', () => {
    const lines = `pause sign_in
    cut site
    note "Not counted"
    decide bleeding takes 1 min {
      option stopped { }
      option brisk { cut site\ncut site }
    }
    record photograph "From above"
    cut site`;
    expect(rowsOf(`${lines}`)).toEqual([
      '- Pause: Sign in',
      '1 Cut site',
      '2 Decide: Bleeding',
      '- Brisk',
      '2a Cut site (if bleeding is brisk)',
      '2b Cut site (if bleeding is brisk)',
      '4 Cut site',
    ]);
  });

  test('say where they stand: lanes, rounds, what may go wrong, what to do when it is not so', () => {
    const lines = `together {
      lane a "Graft" { wet g }
      lane b "Tooth" { repeat until "clean" at most 3 times { cut site } }
    }
    complication "It bleeds" { cut site }
    verify "Level" otherwise { cut site }`;
    expect(rowsOf(lines)).toEqual([
      '- At the same time: Graft',
      '1a Wet g (“Graft”, at the same time)',
      '- At the same time: Tooth',
      '- Repeat until clean, up to 3 times (“Tooth”, at the same time)',
      '1b Cut site (“Tooth”, at the same time) (up to 3 times)',
      '- If it happens: It bleeds',
      '- Cut site (if it happens: It bleeds)',
      '2 Check: Level',
      '- If not',
      '2a Cut site (if not)',
    ]);
  });

  test('a procedure done by the same people throughout is one, with all its time', () => {
    const row = rowOf(visitOf(timelineIn(visit('tidy site'))), 'Tidy site');
    expect(row.takes).toEqual({ shortest: 240, longest: 480, usual: null });
  });

  test('a decision and a check last as long as they do themselves', () => {
    const lines = 'decide bleeding takes 1 min {\noption stopped { }\noption brisk { cut site }\n}';
    const row = rowOf(visitOf(timelineIn(visit(lines))), 'Decide: Bleeding');
    expect({ takes: row.takes, end: row.end }).toEqual({
      takes: { shortest: 60, longest: 60, usual: null },
      end: { earliest: 60, latest: 60 },
    });
  });

  test('a time that is not stated is null, and said in words', () => {
    const line = visitOf(timelineIn(visit('vague site\ncut site')));
    expect(rowOf(line, 'Vague site')).toMatchObject({
      takes: { shortest: 0, longest: null },
      words: { takes: 'not said' },
    });
    expect(rowOf(line, 'Cut site')).toMatchObject({
      start: { earliest: 0, latest: null },
      words: { begins: 'from 0 min on', takes: '2–4 min' },
    });
    expect(line.chair).toEqual({ shortest: 120, longest: null });
    expect(line.played).toBeNull();
  });
});

describe('clocks', () => {
  test('from where a state begins to the step that asks how old it is', () => {
    const line = visitOf(timelineIn(visit('wet g\ncut site\npack g')));
    expect(line.clocks).toEqual([
      {
        text: 'G wetted',
        since: { label: 'Wet g', number: '1', at: { earliest: 60, latest: 60 } },
        until: { label: 'Pack g', number: '3', at: { earliest: 180, latest: 300 } },
        when: null,
        allowed: { shortest: 600, longest: 3600 },
        given: { shortest: 120, longest: 240 },
        answer: 'always breaks',
        words: { allowed: '10–60 min', given: '2–4 min', answer: 'always breaks: too soon' },
      },
    ]);
  });

  test.each([
    ['wet g\ncut site takes 12..20 min\npack g', 'holds'],
    ['wet g\ncut site takes 5..20 min\npack g', 'can break: too soon'],
    ['wet g\ncut site takes 12..90 min\npack g', 'can break: too late'],
    ['wet g\ncut site takes 12 min\nvague site\npack g', 'cannot be told'],
  ])('%j: %s', (lines, answer) => {
    const [clock] = visitOf(timelineIn(visit(lines))).clocks;
    expect(clock?.words.answer).toBe(answer);
  });
});

describe('the whole', () => {
  test('visits and what is written between them', () => {
    const line = timelineIn(visit('cut site', 'wait 7..10 d because "It heals"\nvisit w "Again" { cut site }'));
    expect(line.course.map((part) => (part.type === 'visit' ? part.label : `${part.text}: ${part.because}`))).toEqual([
      'V',
      '7–10 days: It heals',
      'Again',
    ]);
  });

  test('says whether it is fit for use', () => {
    expect(exampleTimeline('protocols/grafted_socket.curette')).toMatchObject({ fit: true, errors: 0 });
    expect(exampleTimeline('drafts/grafted_socket_draft.curette').fit).toBe(false);
  });

  test('every text of the protocol may be anything', () => {
    for (const text of hostileTexts) expect(() => timelineIn(hostileProtocol(text))).not.toThrow();
  });
});

describe('as text', () => {
  const text = (line: Parameters<typeof timelineText>[0], width = 110) =>
    timelineText(line, { width, paint: unpainted });

  test('a demo protocol', () => {
    expect(text(exampleTimeline('protocols/grafted_socket.curette'))).toMatchSnapshot();
  });

  test('lanes, clocks, and time to fill', () => {
    const lines = `together {
      lane a "Graft" by assistant { wet g }
      lane b "Tooth" by surgeon { cut site takes 20..30 min }
    }
    pack g
    wait 3 min`;
    expect(text(timelineIn(visit(lines)))).toMatchSnapshot();
  });

  test('no line is wider than the terminal, and columns stand below one another', () => {
    const lanes = timelineIn(
      visit(`together {
        lane a "Graft" by assistant { wet g }
        lane b "Tooth" by surgeon { cut site takes 20..30 min }
      }
      ${'cut site by surgeon, assistant\n'.repeat(120)}
      vague site
      pack g`),
    );
    const lines = [
      exampleTimeline('protocols/grafted_socket.curette'),
      exampleTimeline('protocols/staged_implant.curette'),
      lanes,
    ];
    for (const width of [76, 80, 90, 110, 140])
      for (const one of lines) {
        const shown = text(one, width).split('\n');
        for (const line of shown) expect({ line, wide: [...line].length > width }).toEqual({ line, wide: false });
        const head = shown.find((line) => line.includes(' begins ')) ?? '';
        const first = shown.slice(shown.indexOf(head) + 1).find((line) => / 0 min/.test(line)) ?? '';
        expect(first.slice(head.indexOf('begins'))).toMatch(/^0 min/);
      }
  });

  test('is of visible characters only, and says when it is not fit for use', () => {
    for (const hostile of hostileTexts) expect(text(timelineIn(hostileProtocol(hostile)))).not.toMatch(HIDDEN);
    expect(text(exampleTimeline('drafts/grafted_socket_draft.curette'))).toContain('NOT FIT FOR USE');
  });

  test('a protocol without visits, and a visit without steps', () => {
    expect(text(timelineIn('protocol p "P" { }'))).toContain('It has no visits.');
    expect(text(timelineIn('protocol p "P" { visit v "V" { } }'))).toContain('Nothing in it says how long it takes.');
  });
});

// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for.
const HIDDEN = /[\u0000-\u0009\u000b-\u001f\u202a-\u202e]/;
