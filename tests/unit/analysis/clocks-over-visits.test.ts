/** Clocks that run from one visit to another: judged on dates, whatever the first date is. */
import { test } from 'vitest';
import { check } from '../../support/fixture.ts';

const protocol = (heals: string, ...waits: string[]) => `
// quiet: missing_head, not_judged
kind site "site" is place {
  heals  : time range
  states whole -> grafted -> loaded
}
action graft (site s) {
  makes s grafted
  takes 20..40 min
}
action load (site s) {
  needs s grafted for s.heals because "Sooner it comes loose" source common_practice
  makes s loaded
  takes 10 min
}
protocol p "P" {
  given { s : site { heals ${heals} } }
  visit surgery "Surgery" { graft s }
${waits.map((wait, number) => `  wait ${wait}\n${number < waits.length - 1 ? `  visit look_${number} "Look" { note "Look" }\n` : ''}`).join('')}  visit loading "Loading" {
    load s
`;

const holds = (heals: string, ...waits: string[]) => check(`${protocol(heals, ...waits)}  }\n}\n`);
const breaks = (mark: string, heals: string, ...waits: string[]) =>
  check(`${protocol(heals, ...waits)}    //   ^ ${mark}\n  }\n}\n`);

test('months against the same months hold on every date', () => {
  holds('at least 4 mo', '4 mo');
  holds('at least 4 mo', '4..6 mo');
  holds('4..6 mo', '4..6 mo');
});

test('days against months hold as far as the shortest months allow', () => {
  holds('at least 28 d', '1 mo');
  breaks('clock_broken (warning): 29 d', 'at least 29 d', '1 mo');
  holds('at least 120 d', '4 mo');
  breaks('clock_broken (warning)', 'at least 121 d', '4 mo');
  breaks('clock_broken (error)', 'at least 124 d', '4 mo');
});

test('two months and two months are four, but for the ends of months', () => {
  breaks('clock_broken (warning): From 2025-12-29, for instance, it is 2026-04-28', 'at least 4 mo', '2 mo', '2 mo');
  holds('at least 3 mo', '2 mo', '2 mo');
});

test('too late by the longest months', () => {
  holds('at most 31 d', '1 mo');
  breaks('clock_broken (warning): may be at most 30 d', 'at most 30 d', '1 mo');
  breaks('clock_broken (error)', 'at most 27 d', '1 mo');
});

test('days are days, whatever the minutes in the chair', () => {
  holds('7..14 d', '7..14 d');
  breaks('clock_broken (warning)', '7..14 d', '7..15 d');
  breaks('clock_broken (warning)', '7..14 d', '6..14 d');
});

test('a window that no visit falls into', () => {
  breaks('clock_broken (error): may be at most 14 d', '7..14 d', '3 mo');
  breaks('clock_broken (error): needs at least 6 weeks', '6..8 wk', '10 d');
});

test('a wait without an upper end keeps what asks for long enough, and leaves open what may be too late', () => {
  holds('at least 3 mo', 'at least 3 mo');
  breaks('time_not_stated (warning): may be at most', '3..6 mo', 'at least 3 mo');
});
