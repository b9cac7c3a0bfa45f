import { formatQuantity, type Quantity, WEEKDAYS } from '@curette/shared';
import { type Mend, problemKind } from './problem.ts';
import { listWords, sentence } from './words.ts';

interface Data {
  /** the two visits, as they are called */
  readonly earlier: string;
  readonly later: string;
  /** what stands between them */
  readonly wait: readonly Quantity[];
  /** weekdays of the earlier visit after which no day is open, and those after which it hangs on the date; 1 is Monday */
  readonly never: readonly number[];
  readonly sometimes: readonly number[];
  /** no weekday of the earlier visit is left */
  readonly always: boolean;
  readonly open: readonly number[];
  readonly closed: readonly number[];
  readonly tries: readonly Mend[];
}

export const noOpenDay = problemKind<Data>({
  code: 'no_open_day',
  severity: 'warning',
  title: 'No day is open',
  page: `The wait between two visits is a window of days, and on some weekday on which the earlier visit may be, every day of that window is closed: whoever books finds no date that keeps to the protocol. On which weekdays there are no visits stands in the workspace's \`curette.json\`.

* *For some weekdays* (a warning): the message names those on which the earlier visit may then not be. A wait of whole months may lead to any weekday, by the length of the months.
* *For all* (an error): the two visits can never be booked.

Widen the wait, if the technique allows it, so that an open day always falls into it; or count in weeks, which lead from a weekday to the same.`,
  triggers: `
// quiet: missing_head
//- curette.json
{ "closed": { "weekdays": ["saturday", "sunday"] } }

//- recall.curette
protocol recall "Look again" {
  visit surgery "Surgery" {
    note "Written down"
  }
  wait 2 d
  //   ^^^ no_open_day
  visit look "Look at the wound" {
    note "Written down"
  }
}
`,
  silent: `
// quiet: missing_head
//- curette.json
{ "closed": { "weekdays": ["saturday", "sunday"] } }

//- recall.curette
protocol recall "Look again" {
  visit surgery "Surgery" {
    note "Written down"
  }
  wait 2..4 d
  visit look "Look at the wound" {
    note "Written down"
  }
}
`,
  words: ({ earlier, later, wait, never, sometimes, always, open, closed, tries }) => {
    const after = wait.map((quantity) => formatQuantity(quantity)).join(' and ');
    const closedWords = `there are no visits on ${daysWords(closed, 'and', 's')}`;
    const parts: string[] = [];
    if (always) {
      const only = open.length <= 3 ? `visits are on ${daysWords(open, 'and', 's')} only` : closedWords;
      parts.push(`whatever day "${earlier}" is on, no day is open for "${later}" ${after} later: ${only}`);
    } else {
      if (never.length > 0)
        parts.push(
          `if "${earlier}" is on a ${daysWords(never, 'or')}, no day is open for "${later}" ${after} later: ${closedWords}`,
        );
      if (sometimes.length > 0)
        parts.push(
          `if "${earlier}" is on a ${daysWords(sometimes, 'or')}, it hangs on the date whether a day is open for "${later}" ${after} later${never.length > 0 ? '' : `: ${closedWords}`}`,
        );
    }
    return {
      severity: always ? 'error' : 'warning',
      message: parts.map((part) => `${sentence(part)}.`).join(' '),
      label: always ? 'no open day' : `no open day from ${daysWords([...never, ...sometimes].sort(), 'or')}`,
      tries,
    };
  },
});

function daysWords(days: readonly number[], joint: 'and' | 'or', ending = ''): string {
  return listWords(
    days.map((day) => sentence(WEEKDAYS[day - 1] ?? '') + ending),
    joint,
  );
}
