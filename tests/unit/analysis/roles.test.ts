/** Who is asked for where in lanes side by side: one role in two at once, too few hands, a pause while others work on. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { TogetherFlow } from '../../../server/src/analysis/protocol/flow.ts';
import { tooFewHandsIn } from '../../../server/src/analysis/protocol/hands-in-lanes.ts';
import { judgeLanes } from '../../../server/src/analysis/protocol/lane-findings.ts';
import { check, checkMend, checkNoMend, factsOf, problemsOf, readFixture } from '../../support/fixture.ts';

const KIT = `
// quiet: missing_head, never_used, time_outside_action
finding wall "Wall" { intact, lost }
finding bleeding "Bleeding" { stopped, brisk }
kind graft "graft" is material { states dry -> wetted -> packed }
kind cement "cement" is material {
  states mixed -> set, set -> mixed
  mixed  lasts at most 8 min, then set source common_practice
}
action mix (cement c) {
  makes c mixed
  takes 1 min
}
kind surface "surface" is place
action brief (place p) { takes 2 min }
action slow (place p) { takes 5..20 min }
action vague (place p)
action cut (place p) {
  takes 3 min
  by    surgeon
}
action sew (place p) {
  takes 3 min
  by    surgeon, resident
}
action wet (graft g) {
  makes g wetted
  takes 1 min
}
pause time_out "Time out" {
  item  "Said aloud"
  takes 1 min
  by    surgeon
}
pause count "Count" {
  item  "Counted"
  takes 1 min
}
procedure dress (place p) {
  slow p
  brief p by assistant
}
`;

/** The kit and a protocol whose only visit holds these lines. */
const visit = (lines: string, team = 'surgeon, assistant, resident') => `${KIT}
protocol p "P" {
  given { site : surface, other : surface }
  team { ${team} }
  materials { g : graft, c : cement }
  visit v "V" {
    ${lines.trim()}
    note "Done"
  }
}
`;

const holds = (lines: string, team?: string) => check(visit(lines, team));

describe('one role in two lanes', () => {
  test('at once from the beginning, whatever the steps take, is an error', () => {
    holds(`
    together {
      lane one by surgeon { slow site }
      lane two { brief other by surgeon }
      //                        ^^^^^^^ role_in_two_lanes (error): both from the beginning
    }
`);
  });

  test('one after the other is none, and touching is no overlap', () => {
    holds(`
    together {
      lane one { brief site by surgeon }
      lane two {
        brief other by assistant
        slow other by surgeon
      }
    }
`);
  });

  test('at once in every run later on names the times that make it so', () => {
    holds(`
    together {
      lane one by surgeon { slow site }
      lane two by assistant {
        brief other
        brief other by surgeon because "Again"
        //             ^^^^^^^ role_in_two_lanes (error): begins after 2 min at the latest, while the other lasts until 5 min at least
      }
    }
`);
  });

  test('at once only when the work is slow is a warning with that run', () => {
    holds(`
    together {
      lane one by surgeon { slow site }
      lane two by assistant {
        brief other takes 8 min
        brief other by surgeon
        //             ^^^^^^^ role_in_two_lanes (warning): If "slow site" takes 20 min, the surgeon is still at "slow site" (one) when "brief other" (two) begins after 8 min
      }
    }
`);
  });

  test('in a run where one is slow before it and the other quick, both are named', () => {
    holds(`
    together {
      lane one {
        slow site by assistant
        brief site by surgeon
      }
      lane two {
        brief other takes 7..9 min by resident
        brief other by surgeon
        //             ^^^^^^^ role_in_two_lanes (warning): If "slow site" takes 7 min and "brief other" takes 7 min
      }
    }
`);
  });

  test('a length that nothing states leaves it open, told once', () => {
    holds(`
    together {
      lane one by surgeon {
        vague site
        brief site
        slow site
      }
      lane two by assistant {
        brief other
        brief other by surgeon because "Again"
        //             ^^^^^^^ role_in_two_lanes (advice): nothing says how long "vague site" takes
        slow other by surgeon
      }
    }
`);
  });

  test('two steps of unknown length that begin together meet all the same', () => {
    holds(`
    together {
      lane one { vague site by surgeon }
      lane two { vague other by surgeon }
      //                        ^^^^^^^ role_in_two_lanes (error)
    }
`);
  });

  test('it is told once for a role and two lanes: the surest, and of those the earliest', () => {
    holds(`
    together {
      lane one by surgeon {
        brief site
        slow site
        slow site because "Again"
      }
      lane two {
        brief other by assistant
        slow other by assistant
        slow other by surgeon
        //            ^^^^^^^ role_in_two_lanes (warning)
        brief other by surgeon
      }
      lane three by resident {
        brief site takes 3 min
        brief site by surgeon
        //            ^^^^^^^ role_in_two_lanes (error): "slow site" (one)
      }
    }
`);
  });
});

describe('who does a step', () => {
  test('several named on a line take part together', () => {
    holds(`
    together {
      lane one { slow site by surgeon, assistant }
      lane two { slow other by assistant }
      //                       ^^^^^^^^^ role_in_two_lanes (error): The assistant
    }
`);
  });

  test('of several that an action allows, any may: two can sew at once', () => {
    holds(`
    together {
      lane one { sew site }
      lane two { sew other }
    }
`);
  });

  test('the only one that the action allows does it', () => {
    holds(`
    together {
      lane one { cut site }
      lane two { cut other }
      //         ^^^^^^^^^ role_in_two_lanes (error): The surgeon
    }
`);
  });

  test('the only one of the team that the action allows does it', () => {
    holds(
      `
    together {
      lane one { sew site }
      lane two { sew other }
      //         ^^^^^^^^^ role_in_two_lanes (error): The surgeon
    }
`,
      'surgeon, assistant',
    );
  });

  test('a lane names who works in it, unless a line names somebody else', () => {
    holds(`
    together {
      lane one by surgeon { slow site by assistant }
      lane two by surgeon { slow other }
    }
`);
  });

  test('of several that a lane names, those that the action allows do it', () => {
    holds(`
    together {
      lane one by surgeon, assistant { cut site }
      lane two by assistant { slow other }
    }
`);
  });

  test('a step that nobody of its lane may do is told', () => {
    holds(`
    together {
      lane one by assistant { cut site }
      //                      ^^^^^^^^ role_may_not
      lane two by assistant, resident { sew other because "Meanwhile" }
    }
`);
  });

  test('nobody is held by a wait', () => {
    holds(`
    together {
      lane one by surgeon {
        brief site
        wait 30 min
        brief site because "Again"
      }
      lane two {
        brief other by assistant
        slow other by surgeon
      }
    }
`);
  });

  test('who looks, measures or decides is held as long as that takes', () => {
    holds(`
    together {
      lane one by surgeon {
        decide wall "Probe" takes 3 min {
          option intact { }
          option lost { }
        }
      }
      lane two {
        verify "Flat" takes 2 min by surgeon otherwise "Again"
        //                           ^^^^^^^ role_in_two_lanes (error)
      }
    }
`);
  });
});

describe('in what stands in a lane', () => {
  test('options of one decision never come together, in whatever lanes', () => {
    holds(`
    together {
      lane one {
        decide wall "Probe" {
          option intact { slow site by surgeon }
          option lost { }
        }
      }
      lane two {
        decide wall "Look" {
          option intact { }
          option lost { slow other by surgeon }
        }
      }
    }
`);
  });

  test('options of two decisions may, and what must have been found is said', () => {
    holds(`
    together {
      lane one {
        decide wall "Probe" {
          option intact { slow site by surgeon }
          option lost { }
        }
      }
      lane two {
        decide bleeding "Look" {
          option stopped { }
          option brisk { slow other by surgeon }
          //                           ^^^^^^^ role_in_two_lanes (error): When wall is intact and bleeding is brisk
        }
      }
    }
`);
  });

  test('what was found around the lanes holds in them', () => {
    holds(`
    decide wall "Probe" {
      option intact { }
      option lost {
        together {
          lane one { slow site by surgeon }
          lane two {
            decide wall "Look" {
              option intact { slow other by surgeon }
              option lost { brief other by assistant }
            }
          }
        }
      }
    }
`);
  });

  test('how long an option takes decides what meets after it', () => {
    holds(`
    together {
      lane one {
        decide wall "Probe" {
          option intact { brief site by assistant }
          option lost { slow site takes 20 min by assistant }
        }
        brief site by surgeon
      }
      lane two by resident {
        slow other takes 10 min
        slow other takes 5 min by surgeon
        brief other takes 5 min
      }
    }
`);
  });

  test('a complication can bring two together, as a warning', () => {
    holds(`
    together {
      lane one by surgeon { slow site }
      lane two by assistant {
        brief other
        complication "It bleeds" { brief other by surgeon }
        //                                        ^^^^^^^ role_in_two_lanes (warning): When "It bleeds" happens
      }
    }
`);
  });

  test('a further round can bring two together', () => {
    holds(`
    together {
      lane one {
        brief site by assistant
        slow site by surgeon
      }
      lane two {
        repeat until "clean" at most 3 times {
          brief other takes 1 min by surgeon
          //                         ^^^^^^^ role_in_two_lanes (warning): goes on to a further round
          brief other takes 1 min by resident
        }
      }
    }
`);
  });

  test('a procedure is its steps, done by whoever its line names where they name nobody', () => {
    holds(`
    together {
      lane one { dress site by surgeon }
      lane two {
        brief other by assistant
        brief other by surgeon
        //             ^^^^^^^ role_in_two_lanes (error): "slow site" (one)
      }
    }
`);
  });

  test('the steps of a procedure are told where it is used', () => {
    holds(`
    together {
      lane one { slow site takes 30 min by assistant }
      lane two { dress other by surgeon }
      //         ^^^^^ role_in_two_lanes (error): The assistant
    }
`);
  });

  test('lanes inside a lane meet each other and the lanes outside', () => {
    holds(`
    together {
      lane one {
        together {
          lane left { slow site by resident }
          lane right { slow other by resident }
          //                         ^^^^^^^^ role_in_two_lanes (error): "slow site" (left)
        }
        brief site by surgeon
        //            ^^^^^^^ role_in_two_lanes (warning)
      }
      lane two {
        slow other takes 3 min by assistant
        slow other takes 4..30 min by surgeon
      }
    }
`);
  });

  test('where the path ends nobody is asked for any more', () => {
    holds(`
    together {
      lane one {
        slow site takes 5 min by assistant
        decide wall "Probe" {
          option intact { }
          option lost { stop "Refer" }
        }
        brief site by surgeon
      }
      lane two {
        slow other takes 5 min by resident
        decide wall "Look" {
          option intact { brief other by assistant }
          option lost { brief other by surgeon }
        }
      }
    }
`);
  });
});

describe('waits', () => {
  test('the team waits until the other step is done, where a wait leaves it free', () => {
    holds(`
    together {
      lane one by surgeon { slow site }
      lane two {
        wait at least 5 min
        brief other by surgeon
      }
    }
`);
  });

  test('it cannot where the wait is too short for that', () => {
    holds(`
    together {
      lane one by surgeon { slow site }
      lane two {
        wait 5..15 min
        brief other by surgeon
        //             ^^^^^^^ role_in_two_lanes (warning): If "slow site" takes 20 min and 15 min are waited, the surgeon is still
      }
    }
`);
  });

  test('a wait for a state begun in the lane ends when the state is that old', () => {
    holds(`
    together {
      lane one by surgeon { slow site takes 5..11 min }
      lane two by assistant {
        wet g
        brief other
        wait until g is wetted for 10 min
        brief other by surgeon
      }
    }
`);
  });

  test('a wait for what sets by itself ends when its time is over', () => {
    holds(`
    together {
      lane one by surgeon { slow site takes 5..9 min }
      lane two by assistant {
        mix c
        wait until c is set
        brief other by surgeon
      }
    }
`);
  });

  test('and not sooner', () => {
    holds(`
    together {
      lane one by surgeon { slow site takes 5..10 min }
      lane two by assistant {
        mix c
        wait until c is set
        brief other by surgeon
        //             ^^^^^^^ role_in_two_lanes (warning): If "slow site" takes 10 min, the surgeon is still at "slow site" (one) when "brief other" (two) begins after 9 min
      }
    }
`);
  });

  test('a wait for a state begun before the lanes leaves it open', () => {
    holds(`
    wet g by assistant
    together {
      lane one by surgeon { slow site takes 5..6 min }
      lane two by assistant {
        wait until g is wetted for 10 min
        brief other by surgeon
        //             ^^^^^^^ role_in_two_lanes (advice): how long a wait for a state lasts hangs on
      }
    }
`);
  });
});

describe('too few hands', () => {
  test('three lanes that name nobody need three people', () => {
    holds(
      `
    together {
      lane one { slow site }
      lane two { slow other }
      lane three { brief site }
      //           ^^^^^^^^^^ too_few_hands (error): only the surgeon and the assistant
    }
`,
      'surgeon, assistant',
    );
  });

  test('two of three busy elsewhere leave nobody who may do the third', () => {
    holds(`
    together {
      lane one { slow site by surgeon }
      lane two { slow other takes 10 min by resident }
      lane three {
        brief site takes 3..12 min by assistant
        sew other
//      ^^^^^^^^^ too_few_hands (warning): only the surgeon and the resident
      }
    }
`);
  });

  test('who is free in time is enough', () => {
    holds(
      `
    together {
      lane one { brief site by surgeon }
      lane two { slow other by assistant }
      lane three {
        wait 2 min
        slow site
      }
    }
`,
      'surgeon, assistant',
    );
  });

  test('without a team nothing is said', () => {
    check(`${KIT}
protocol p "P" {
  given { site : surface }
  visit v "V" {
    together {
      lane one { slow site }
      lane two { slow site because "Other side" }
    }
  }
}
`);
  });
});

describe('pauses', () => {
  test('in one lane while another works on are told', () => {
    holds(`
    together {
      lane one by surgeon {
        brief site
        pause count
//      ^^^^^^^^^^^ pause_in_lane (warning): "slow other" (two) goes on
      }
      lane two by assistant { slow other }
    }
`);
  });

  test('are silent while the other lanes only wait', () => {
    holds(`
    together {
      lane one by surgeon {
        brief site
        pause count
      }
      lane two by assistant {
        brief other
        wait 10 min
      }
    }
`);
  });

  test('whoever a pause names is asked for by it', () => {
    holds(`
    together {
      lane one by assistant {
        pause time_out
      }
      lane two {
        slow other takes 10 min by surgeon
        //                         ^^^^^^^ role_in_two_lanes (error): "time out" (one)
      }
    }
`);
  });
});

describe('mends', () => {
  const mends = (before: string, title: string, after: string) => checkMend(visit(before), title, visit(after));

  test('the step given to another of the team who may do it and is free', () => {
    mends(
      `
    together {
      lane one by surgeon { slow site }
      lane two { sew other by surgeon }
    }
`,
      'Give "sew other" to the resident',
      `
    together {
      lane one by surgeon { slow site }
      lane two { sew other by resident }
    }
`,
    );
  });

  test('the step of a lane given to another by its own line', () => {
    mends(
      `
    together {
      lane one by surgeon { slow site takes 9 min }
      lane two by surgeon { brief other because "Now" }
    }
`,
      'Give "brief other" to the assistant',
      `
    together {
      lane one by surgeon { slow site takes 9 min }
      lane two by surgeon { brief other by assistant because "Now" }
    }
`,
    );
  });

  test('the last step of a lane done when all are over, by whom it was', () => {
    mends(
      `
    together {
      lane one by surgeon { slow site }
      lane two by surgeon {
        wait 3 min
        cut other
      }
    }
`,
      'Do "cut other" when all lanes are over',
      `
    together {
      lane one by surgeon { slow site }
      lane two by surgeon {
        wait 3 min
      }
    }
    cut other by surgeon
`,
    );
  });

  test('a pause held before the lanes begin', () => {
    mends(
      `
    together {
      lane one by surgeon {
        pause count
        brief site
      }
      lane two by assistant { slow other }
    }
`,
      'Pause before the lanes begin',
      `
    pause count
    together {
      lane one by surgeon {
        brief site
      }
      lane two by assistant { slow other }
    }
`,
    );
  });

  test('a step that its lane may not do given to who may', () => {
    mends(
      `
    together {
      lane one by assistant { cut site because "Now" }
      lane two by resident { slow other }
    }
`,
      'Give the step to the surgeon',
      `
    together {
      lane one by assistant { cut site by surgeon because "Now" }
      lane two by resident { slow other }
    }
`,
    );
  });

  test('nothing is offered where nobody else may and nothing can be moved', () => {
    checkNoMend(
      visit(`
    together {
      lane one by surgeon { cut site }
      lane two { cut other }
    }
`),
    );
  });
});

test('what is read and not judged no longer speaks of lanes', () => {
  const fixture = visit('    together {\n      lane one by surgeon { brief site }\n    }');
  expect(problemsOf(readFixture(fixture)).map(({ problem }) => problem.code)).not.toContain('not_judged');
});

test('hands are too few where no way of sharing the work out gives everybody one thing to do', () => {
  const team = ['a', 'b', 'c', 'd'];
  const roles = fc.subarray(team, { minLength: 1 });
  const flow = aStep();
  const seen = new Set<boolean>();
  fc.assert(
    fc.property(fc.array(roles, { minLength: 1, maxLength: 5 }), (lanes) => {
      const all = { least: 0, most: 0, held: 0, hurried: 0 };
      const over = { least: 60, most: 60, held: 60, hurried: 60 };
      const base = { begins: all, ends: over, when: [], aside: false, before: undefined, open: [] };
      const work = lanes.map((roles, lane) => ({ ...base, flow, lane, hands: { type: 'one of' as const, roles } }));
      const shared = (left: readonly (readonly string[])[], busy: readonly string[]): boolean => {
        const [next, ...rest] = left;
        return !next || next.some((role) => !busy.includes(role) && shared(rest, [...busy, role]));
      };
      const enough = shared(lanes, []);
      seen.add(enough);
      const found = tooFewHandsIn(work, new Set(team));
      expect(found?.answer).toBe(enough ? undefined : 'always');
      // What is told is itself a proof: more work than people who may do it, all of whom are named.
      if (found) {
        expect(found.work.length).toBeGreaterThan(found.roles.length);
        for (const { hands } of found.work) for (const role of hands.roles) expect(found.roles).toContain(role);
      }
    }),
    { numRuns: 300 },
  );
  expect(seen.size).toBe(2);
});

function aStep() {
  const flow = togetherOf([{ type: 'step', role: 'surgeon', lo: 1, hi: 1 }], []).lanes[0]?.items[0];
  if (!flow) throw new Error('there is no step');
  return flow;
}

/** What may stand in a lane of the property below; minutes. */
type Item =
  | { readonly type: 'step'; readonly role: string; readonly lo: number; readonly hi: number }
  | { readonly type: 'wait'; readonly lo: number; readonly hi: number }
  | { readonly type: 'wet' }
  | { readonly type: 'until'; readonly minutes: number }
  | { readonly type: 'decide'; readonly finding: 'wall' | 'bleeding'; readonly options: readonly (readonly Item[])[] };

const range = fc
  .record({ lo: fc.integer({ min: 1, max: 6 }), more: fc.integer({ min: 0, max: 2 }) })
  .map(({ lo, more }) => ({ lo, hi: lo + more }));
const step = fc
  .record({ role: fc.constantFrom('surgeon', 'surgeon', 'assistant'), range })
  .map(({ role, range }): Item => ({ type: 'step', role, ...range }));
const wait = fc
  .record({ lo: fc.integer({ min: 1, max: 3 }), more: fc.integer({ min: 0, max: 5 }) })
  .map(({ lo, more }): Item => ({ type: 'wait', lo, hi: lo + more }));
const soak = fc
  .record({ between: fc.array(step, { maxLength: 1 }), minutes: fc.integer({ min: 1, max: 8 }) })
  .map(({ between, minutes }): Item[] => [{ type: 'wet' }, ...between, { type: 'until', minutes }]);
const decide = fc
  .record({
    finding: fc.constantFrom('wall', 'bleeding'),
    options: fc.tuple(fc.array(step, { maxLength: 1 }), fc.array(step, { maxLength: 2 })),
  })
  .map(({ finding, options }): Item => ({ type: 'decide', finding, options }));
const lane = (parts: fc.Arbitrary<Item | Item[]>) =>
  fc.array(parts, { minLength: 1, maxLength: 3 }).map((list) => list.flat());

test('the verdict on a role and two lanes is that of all lengths tried out', () => {
  const seen = new Map<string, number>();
  fc.assert(
    fc.property(
      lane(fc.oneof(step, step, wait, decide, soak)),
      lane(fc.oneof(step, step, wait, decide)),
      (one, two) => {
        const { clashes } = judgeLanes(togetherOf(one, two), [], [], new Set(['surgeon', 'assistant']));
        for (const role of ['surgeon', 'assistant']) {
          const expected = tried(role, one, two);
          const found = clashes.find((clash) => clash.role === role)?.answer ?? 'never';
          seen.set(expected, (seen.get(expected) ?? 0) + 1);
          expect({ role, found, lanes: [one, two] }).toEqual({ role, found: expected, lanes: [one, two] });
        }
      },
    ),
    { numRuns: 400 },
  );
  // Each answer has to have come up, or nothing was compared.
  expect([...seen.keys()].sort()).toEqual(['always', 'can', 'never']);
});

function togetherOf(one: readonly Item[], two: readonly Item[]): TogetherFlow {
  const lines = `together {\nlane one {\n${written(one)}\n}\nlane two {\n${written(two)}\n}\n}`;
  const facts = factsOf(readFixture(visit(lines)))('main.curette');
  const flow = [...(facts?.protocols.values() ?? [])][0]?.visits[0]?.items[0];
  if (flow?.type !== 'together') throw new Error('there are no lanes');
  return flow;
}

function written(items: readonly Item[]): string {
  return items
    .map((item) => {
      switch (item.type) {
        case 'step':
          return `slow site takes ${item.lo}..${item.hi} min by ${item.role}`;
        case 'wait':
          return `wait ${item.lo}..${item.hi} min`;
        case 'wet':
          return 'wet g by resident';
        case 'until':
          return `wait until g is wetted for ${item.minutes} min`;
        case 'decide': {
          const names = item.finding === 'wall' ? ['intact', 'lost'] : ['stopped', 'brisk'];
          const options = item.options.map((option, number) => `option ${names[number]} {\n${written(option)}\n}`);
          return `decide ${item.finding} "Look" {\n${options.join('\n')}\n}`;
        }
        default:
          return item satisfies never;
      }
    })
    .join('\n');
}

/** One run of a lane: what the team chose for each wait, and from when to when each step of a role was done. */
interface Played {
  readonly chosen: string;
  readonly steps: ReadonlyMap<Item, { readonly start: number; readonly end: number }>;
}

/** Every run of a lane, over all whole minutes, with what is found given. */
function runsOf(items: readonly Item[], role: string, found: Readonly<Record<string, number>>): readonly Played[] {
  interface Going extends Played {
    readonly now: number;
    readonly wetted: number;
  }
  const minutes = ({ lo, hi }: { lo: number; hi: number }) =>
    Array.from({ length: hi - lo + 1 }, (_, more) => lo + more);
  const play = (list: readonly Item[], from: readonly Going[]): readonly Going[] =>
    list.reduce<readonly Going[]>((runs, item) => {
      switch (item.type) {
        case 'step':
          return runs.flatMap((run) =>
            minutes(item).map((long) => ({
              ...run,
              now: run.now + long,
              steps:
                item.role === role
                  ? new Map([...run.steps, [item, { start: run.now, end: run.now + long }]])
                  : run.steps,
            })),
          );
        case 'wait':
          return runs.flatMap((run) =>
            minutes(item).map((long) => ({ ...run, now: run.now + long, chosen: `${run.chosen} ${long}` })),
          );
        case 'wet':
          return runs.map((run) => ({ ...run, now: run.now + 1, wetted: run.now + 1 }));
        case 'until':
          return runs.map((run) => ({ ...run, now: Math.max(run.now, run.wetted + item.minutes) }));
        case 'decide':
          return play(item.options[found[item.finding] ?? 0] ?? [], runs);
        default:
          return item satisfies never;
      }
    }, from);
  return play(items, [{ now: 0, wetted: 0, chosen: '', steps: new Map() }]);
}

/** For each two steps: at once in every run; apart in every run, if the team only chooses its waits well; or neither. The surest counts. */
function tried(role: string, one: readonly Item[], two: readonly Item[]): string {
  const verdicts = new Set<string>();
  for (const wall of [0, 1])
    for (const bleeding of [0, 1]) {
      const first = runsOf(one, role, { wall, bleeding });
      const second = runsOf(two, role, { wall, bleeding });
      for (const a of new Set(first.flatMap((run) => [...run.steps.keys()])))
        for (const b of new Set(second.flatMap((run) => [...run.steps.keys()]))) {
          let always = true;
          const choices = new Map<string, boolean>();
          for (const left of first)
            for (const right of second) {
              const [x, y] = [left.steps.get(a), right.steps.get(b)];
              if (!x || !y) continue;
              const meet = x.start < y.end && y.start < x.end;
              const chosen = `${left.chosen}|${right.chosen}`;
              choices.set(chosen, (choices.get(chosen) ?? true) && !meet);
              always &&= meet;
            }
          verdicts.add(always ? 'always' : [...choices.values()].includes(true) ? 'never' : 'can');
        }
    }
  return ['always', 'can'].find((verdict) => verdicts.has(verdict)) ?? 'never';
}
