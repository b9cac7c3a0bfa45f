import { type Mend, problemKind } from './problem.ts';

interface Data {
  /** what takes no time: work, a line that is over in a moment anyway, a wait, a wait between visits, how old a state is to be */
  readonly what: 'work' | 'moment' | 'wait' | 'gap' | 'age' | 'limit';
  readonly mends: readonly Mend[];
}

export const zeroTime = problemKind<Data>({
  code: 'zero_time',
  severity: 'warning',
  title: 'Takes no time',
  page: `A time of nought is written out. Work that takes no time makes every sum of times too short: what comes after it is reckoned too early, and a limit may seem to be kept that is not. A wait of nought waits for nothing.

If it is not known how long something takes, leave the words out: what depends on it is then said not to be told. If it may be very short, say so: \`takes 0..2 min\`.

A check, a decision, a record or an instruction is over in a moment unless it says otherwise, so there the words only say nothing.`,
  triggers: `
// quiet: missing_head
action extract (place p) {
  takes 0 min
  //    ^^^^^ zero_time
}

protocol extraction "Extraction" {
  given { site : place }
  visit surgery "Surgery" {
    extract site takes 0..0 min
    //                 ^^^^^^^^ zero_time
    wait 0 min
    //   ^^^^^ zero_time
    verify "Socket is empty" otherwise "Look again" takes 0 s
    //                                                    ^^^ zero_time (advice)
  }
}
`,
  silent: `
// quiet: missing_head
action extract (place p)

protocol extraction "Extraction" {
  given { site : place }
  visit surgery "Surgery" {
    extract site takes 0..10 min
    wait 0..5 min
    verify "Socket is empty" otherwise "Look again"
  }
}
`,
  words: ({ what, mends }) => ({
    severity: what === 'moment' || what === 'gap' || what === 'age' ? 'advice' : 'warning',
    title: titles[what],
    message: messages[what],
    label: 'no time',
    mends,
  }),
});

const titles: Readonly<Record<Data['what'], string>> = {
  work: 'Takes no time',
  moment: 'Takes no time',
  wait: 'Waits for nothing',
  gap: 'Waits for nothing',
  age: 'No time asked for',
  limit: 'Lasts no time',
};

const messages: Readonly<Record<Data['what'], string>> = {
  work: 'Work that takes no time makes what comes after it seem sooner than it is; if nobody knows how long it takes, leave this out.',
  moment: 'This line is over in a moment unless it says otherwise; a time of nought says nothing more.',
  wait: 'A wait of nought waits for nothing.',
  gap: 'A wait of nought between two visits makes them one visit; say how long it is, or put the lines into one visit.',
  age: 'A time of nought asks for nothing: the state is enough.',
  limit: 'A state that lasts no time is over before anything can be done in it.',
};
