import { type Place, problemKind } from './problem.ts';
import { article, listWords, meant, plain } from './words.ts';

interface Data {
  readonly property: string;
  readonly of: string;
  readonly value: string;
  readonly allowed: readonly string[];
  readonly place: Place;
}

/** What the closed lists of a kind are lists of. */
const LISTS: Readonly<Record<string, string>> = {
  has: 'conditions',
  takes: 'medicines',
  'allergic to': 'allergies',
};

export const valueOutsideSet = problemKind<Data>({
  code: 'value_outside_set',
  severity: 'error',
  title: 'Not one of the values',
  page: `A property takes one of a closed set of values, and this is none of them: a tooth number that does not exist, a condition that nobody declared. Nothing will ever match it, so what hangs on it would silently not apply.

Correct the value. If it is missing from the set, add it where the kind is declared.`,
  triggers: `
// quiet: missing_head
kind site "site" is place {
  number : one of 11..18, 21..28
}

protocol extraction "Extraction" {
  given {
    patient : patient { has hay_fever }
    //                      ^^^^^^^^^ value_outside_set
    tooth   : site { number 19 }
    //                      ^^ value_outside_set
  }
  visit surgery "Surgery" {
    note "Look at the image"
  }
}
`,
  silent: `
// quiet: missing_head
kind site "site" is place {
  number : one of 11..18, 21..28
}

protocol extraction "Extraction" {
  given {
    patient : patient { has diabetes }
    tooth   : site { number 18 }
  }
  visit surgery "Surgery" {
    note "Look at the image"
  }
}
`,
  words: ({ property, of, value, allowed, place }) => {
    // A wrong number is not a misspelt one: offering its neighbours would invite the wrong tooth or size.
    const numbers = allowed.length > 0 && allowed.every((other) => /^\d+$/.test(other));
    const { sentence, mends } = numbers ? { sentence: '', mends: [] } : meant(value, allowed, place);
    const list = LISTS[property];
    const all = numbers ? numberRuns(allowed) : allowed.length <= 12 ? allowed.map(plain) : [];
    return {
      message: `${
        list === undefined
          ? `The ${plain(property)} of ${article(of)} cannot be "${plain(value)}".`
          : `"${plain(value)}" is not on the list of ${list} of ${article(of)}.`
      }${sentence === '' && all.length > 0 ? ` It can be ${listWords(all)}.` : sentence}`,
      label: 'not one of the values',
      mends,
    };
  },
});

/** 11, 12, 13, 21, 22 as "11–13", "21–22" */
function numberRuns(allowed: readonly string[]): string[] {
  const runs: [number, number][] = [];
  for (const number of allowed.map(Number).sort((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last && number === last[1] + 1) last[1] = number;
    else runs.push([number, number]);
  }
  return runs.map(([from, to]) => (from === to ? String(from) : `${from}–${to}`));
}
