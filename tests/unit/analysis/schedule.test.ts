/** When each step of a visit can begin and end, what is critical, who waits, and how long the chair is occupied. */
import { describe, expect, test } from 'vitest';
import { chairTimeIn, idleIn, minutes, scheduleIn, slackIn, sparesIn, windowsIn } from '../../support/schedules.ts';

const KIT = `
finding bleeding "Bleeding" { stopped, oozing, brisk }
finding root "Root" { complete, broken }
kind graft "graft" is material {
  soak   : time range
  states dry -> wetted -> packed
}
action wet (graft g) {
  makes g wetted
  takes 1 min
}
action pack (graft g) {
  needs g wetted for g.soak because "Too soon it floats out, too late it crumbles" source common_practice
  makes g packed
  takes 5 min
}
action quick (place p) { takes 2..4 min }
action slow (place p) { takes 15..30 min }
action vague (place p)
action glue (place p) {
  takes 1..2 min
  by assistant
}
`;

const visit = (lines: string, soak = '10..60 min') => `${KIT}
protocol p "P" {
  given { site : place }
  team { surgeon, assistant }
  materials { g : graft { soak ${soak} } }
  visit v "V" {
${lines}
  }
}
`;

describe('when a step can begin and end', () => {
  test('in series: after the shortest and the longest of all before it', () => {
    expect(windowsIn(visit('quick site\nslow site\nquick site takes 5 min'))).toEqual([
      'quick site: 0 to 2..4',
      'slow site: 2..4 to 17..34',
      'quick site: 17..34 to 22..39',
    ]);
  });

  test('after a step of no stated length: from its earliest end on', () => {
    expect(windowsIn(visit('quick site\nvague site\nquick site'))).toEqual([
      'quick site: 0 to 2..4',
      'vague site: 2..4 to 2..',
      'quick site: 2.. to 4..',
    ]);
  });

  test('lanes begin together, and what comes after them waits for the last', () => {
    const lanes = 'together {\nlane a "A" { quick site }\nlane b "B" { quick site\nglue site }\n}\nslow site';
    expect(windowsIn(visit(lanes))).toEqual([
      'work side by side: 0 to 3..6',
      'quick site: 0 to 2..4',
      'quick site: 0 to 2..4',
      'glue site: 2..4 to 3..6',
      'slow site: 3..6 to 18..36',
    ]);
  });

  test('after a decision: from the shortest to the longest option', () => {
    const decide = `decide bleeding takes 1 min {
      option stopped { }
      option oozing { quick site }
      option brisk { slow site }
    }
    glue site`;
    expect(windowsIn(visit(decide))).toEqual([
      'Bleeding: 0 to 1..31',
      'quick site: 1 to 3..5',
      'slow site: 1 to 16..31',
      'glue site: 1..31 to 2..33',
    ]);
  });

  test('an option that ends the visit makes nothing later that comes after', () => {
    const decide = `decide root {
      option complete { quick site }
      option broken { slow site\nstop "Another day" }
    }
    glue site`;
    expect(windowsIn(visit(decide)).at(-1)).toBe('glue site: 2..4 to 3..6');
  });

  test('in a repetition: in its first round or in its last', () => {
    expect(windowsIn(visit('repeat until "done" at most 3 times { quick site\nglue site }\nslow site'))).toEqual([
      'the repetition: 0 to 3..18',
      'quick site: 0..12 to 2..16',
      'glue site: 2..16 to 3..18',
      'slow site: 3..18 to 18..48',
    ]);
  });

  test('what happens when a check fails, or something goes wrong, makes what comes after later at most', () => {
    const lines = 'verify "Level" otherwise { quick site }\ncomplication "Bleeds" { slow site }\nglue site';
    expect(windowsIn(visit(lines)).at(-1)).toBe('glue site: 0..34 to 1..36');
  });

  test('a wait for a state is over when the state is that old and the work before it done', () => {
    expect(windowsIn(visit('wet g\nslow site\nwait until g is wetted for 20 min\npack g'))).toEqual([
      'wet g: 0 to 1',
      'slow site: 1 to 16..31',
      'the wait: 16..31 to 21..31',
      'pack g: 21..31 to 26..36',
    ]);
  });

  test('a wait for what two options bring about at different times is over as early and as late as either', () => {
    const lines = `decide root {
      option complete { wet g\nquick site }
      option broken { slow site\nwet g }
    }
    wait until g is wetted for 10 min
    pack g`;
    expect(windowsIn(visit(lines)).at(-1)).toBe('pack g: 11..41 to 16..46');
  });

  test('the chair is occupied from the first step to the last', () => {
    expect(minutes(scheduleIn(visit('quick site\nslow site')).chair)).toBe('17..34');
    expect(scheduleIn(visit('quick site\nvague site')).chair).toEqual({
      lo: 120,
      hi: Number.POSITIVE_INFINITY,
      stated: false,
    });
    expect(scheduleIn(visit('')).chair).toEqual({ lo: 0, hi: 0, stated: true });
  });
});

describe('who does it', () => {
  test('its line, its lane, or the only one whom the action is left to', () => {
    const lines = 'quick site by surgeon\ntogether {\nlane a "A" by assistant { quick site }\n}\nglue site\nslow site';
    expect(scheduleIn(visit(lines)).entries.map(({ by }) => by.join(' '))).toEqual([
      'surgeon',
      '',
      'assistant',
      'assistant',
      '',
    ]);
  });
});

describe('what is critical', () => {
  test('work in series is', () => {
    expect(slackIn(visit('quick site\nslow site\nquick site'))).toEqual([
      'quick site: critical',
      'slow site: critical',
      'quick site: critical',
    ]);
  });

  test('the longest lane is; a shorter one has what it is shorter by', () => {
    const lanes = 'together {\nlane a "A" { quick site }\nlane b "B" { quick site\nslow site }\n}\nglue site';
    expect(slackIn(visit(lanes))).toEqual([
      'work side by side: critical',
      'quick site: 30',
      'quick site: critical',
      'slow site: critical',
      'glue site: critical',
    ]);
  });

  test('each option is, in the run that takes it', () => {
    const decide = 'decide root {\noption complete { quick site }\noption broken { slow site }\n}\nglue site';
    expect(slackIn(visit(decide)).every((line) => line.endsWith('critical'))).toBe(true);
  });

  test('beside a lane, a shorter option makes the other lane critical in its own run only', () => {
    const lanes = `together {
      lane a "A" {
        decide root {
          option complete { quick site }
          option broken { slow site }
        }
      }
      lane b "B" { quick site takes 10 min }
    }`;
    expect(slackIn(visit(lanes))).toEqual([
      'work side by side: critical',
      'Root: critical',
      // The other lane takes 10 min in its run: 6 min longer.
      'quick site: 6',
      'slow site: critical',
      'quick site: 20',
    ]);
  });

  test('work while something soaks that the team then waits for is not', () => {
    expect(slackIn(visit('wet g\nquick site\nwait until g is wetted for 20 min\npack g'))).toEqual([
      'wet g: critical',
      'quick site: 16',
      'the wait: critical',
      'pack g: critical',
    ]);
  });

  test('work that ends the visit is measured to its own end', () => {
    const decide =
      'decide root {\noption complete { quick site }\noption broken { slow site\nstop "Another day" }\n}\nglue site';
    expect(slackIn(visit(decide))).toContain('slow site: critical');
  });

  test('beside a lane of no stated length nothing is told to be', () => {
    const lanes = 'together {\nlane a "A" { quick site }\nlane b "B" { vague site\nquick site }\n}';
    expect(slackIn(visit(lanes))).toEqual([
      'work side by side: critical',
      'quick site: Infinity',
      'vague site: critical',
      'quick site: critical',
    ]);
  });

  test('two lanes of no stated length: either may be', () => {
    const lanes = 'together {\nlane a "A" { quick site\nvague site }\nlane b "B" { vague site }\n}';
    expect(slackIn(visit(lanes)).filter((line) => line.startsWith('vague'))).toEqual([
      'vague site: critical',
      'vague site: critical',
    ]);
  });
});

describe('how much later a step may begin', () => {
  test('until the longest time that a limit allows, counted over all that it spans', () => {
    // 1 min to wet, then 4 + 30 min at most, of 60 allowed.
    expect(sparesIn(visit('glue site\nwet g\nquick site\nslow site\npack g\nquick site'))).toEqual([
      'quick site: 26',
      'slow site: 26',
      'pack g: 26',
    ]);
  });

  test('in a shorter lane by as much more', () => {
    const lanes = 'wet g\ntogether {\nlane a "A" { quick site }\nlane b "B" { slow site }\n}\npack g';
    expect(sparesIn(visit(lanes))).toEqual(['work side by side: 30', 'quick site: 56', 'slow site: 30', 'pack g: 30']);
  });

  test('negative where the limit can break already', () => {
    expect(sparesIn(visit('wet g\nslow site\npack g', '10..20 min'))).toEqual(['slow site: -10', 'pack g: -10']);
  });

  test('nothing is said of what a limit does not span, nor of what no run brings there', () => {
    const lines = `quick site
    wet g
    decide root {
      option complete { slow site }
      option broken { quick site\nstop "Another day" }
    }
    pack g`;
    expect(sparesIn(visit(lines))).toEqual(['Root: 30', 'slow site: 30', 'pack g: 30']);
  });
});

describe('who waits', () => {
  test('everybody in a wait; in a lane, who does it', () => {
    expect(idleIn(visit('quick site\nwait 10 min'))).toEqual(['everybody: 10 from 2..4']);
    const lane = 'together {\nlane a "A" by assistant { wet g\nwait until g is wetted for 5 min }\n}';
    expect(idleIn(visit(lane))).toEqual(['assistant: 5 from 1']);
  });

  test('a wait for a state lasts what is left of its time', () => {
    expect(idleIn(visit('wet g\nslow site\nwait until g is wetted for 20 min'))).toEqual([
      'everybody: 0..5 from 16..31',
    ]);
    expect(idleIn(visit('wet g\nslow site\nwait until g is wetted for 10 min'))).toEqual([]);
  });

  test('a lane that is over before the others', () => {
    const lanes =
      'quick site\ntogether {\nlane a "A" by assistant { quick site }\nlane b "B" by surgeon { slow site }\n}';
    expect(idleIn(visit(lanes))).toEqual(['assistant (A): 11..28 from 4..8']);
  });

  test('lanes of which either may be the last', () => {
    const lanes =
      'together {\nlane a "A" by assistant { quick site }\nlane b "B" by surgeon { quick site takes 3..6 min }\n}';
    expect(idleIn(visit(lanes))).toEqual(['assistant (A): 0..4 from 2..4', 'surgeon (B): 0..1 from 3..6']);
  });
});

describe('how long the chair is occupied in most runs', () => {
  test('evenly drawn: half of the runs in half of the range, nine of ten in nine tenths', () => {
    const time = chairTimeIn(visit('slow site'));
    expect(time).toMatchObject({ samples: 10_000, drawn: 1, withoutUsual: 1, decisions: 0 });
    expect((time?.median ?? 0) / 60).toBeCloseTo(22.5, 0);
    expect((time?.p90 ?? 0) / 60).toBeCloseTo(28.5, 0);
  });

  test('around what is usual, where that is said', () => {
    const time = chairTimeIn(visit('slow site takes 15..30 min usually 16 min'));
    expect(time).toMatchObject({ drawn: 1, withoutUsual: 0 });
    expect((time?.median ?? 0) / 60).toBeLessThan(19);
  });

  test('lanes go on to the longest, options are equally likely, those that stop are left out', () => {
    const fixed = (minutes: number) => `quick site takes ${minutes} min`;
    const lanes = chairTimeIn(visit(`together {\nlane a "A" { ${fixed(3)} }\nlane b "B" { ${fixed(9)} }\n}`));
    expect(lanes).toMatchObject({ median: 540, p90: 540 });
    const options = chairTimeIn(
      visit(
        `decide bleeding {\noption stopped { ${fixed(1)} }\noption oozing { ${fixed(2)} }\noption brisk { slow site\nstop "x" }\n}`,
      ),
    );
    expect(options).toMatchObject({ median: expect.toBeOneOf([60, 120]), p90: 120, decisions: 1 });
  });

  test('what an earlier decision found is so in a later one on the same', () => {
    const decide = (complete: number, broken: number) =>
      `decide root {\noption complete { quick site takes ${complete} min }\noption broken { quick site takes ${broken} min }\n}`;
    expect(chairTimeIn(visit(`${decide(1, 10)}\n${decide(10, 1)}`))).toMatchObject({ median: 660, p90: 660 });
  });

  test('the same every time', () => {
    expect(chairTimeIn(visit('slow site\nquick site'))).toEqual(chairTimeIn(visit('slow site\nquick site')));
  });

  test('not where something has no stated end', () => {
    expect(chairTimeIn(visit('quick site\nvague site'))).toBeUndefined();
    expect(chairTimeIn(visit('repeat until "done" { quick site }'))).toBeUndefined();
  });
});
