/** Steps, pauses and waits in `VISIT`. */
export const VISIT_STEPS = 60;

/**
 * A visit of sixty steps, all of whose limits hold: six times something is soaked and used ten to sixty minutes later, after lanes side by
 * side, a wait the team chooses, and a wait until it has soaked long enough. It needs no library.
 */
export const VISIT: string = `kind mix "mix" is material {
  soak   : time range
  states dry -> wetted -> packed
}
kind site "site" is place
action wet (mix m) {
  makes m wetted
  takes 1..2 min
}
action pack (mix m) {
  needs m wetted for 10..60 min because "Too soon it floats out, too late it crumbles" source common_practice
  makes m packed
  takes 3..5 min
}
action treat (place p) { takes 1..3 min }

protocol long_visit "A visit of sixty steps" {
  version 1.0.0
  status  draft
  owner   "Bench"
  given { place_of_work : site }
  team { surgeon, resident, assistant }
  materials {
${rounds((round) => `    mix_${round} : mix`)}
  }
  visit surgery "Sixty steps" {
${rounds(
  (round) => `    wet mix_${round} by assistant
    treat place_of_work takes 4..6 min by surgeon
    treat place_of_work takes 2..3 min by surgeon
    together {
      lane chairside by surgeon {
        treat place_of_work takes 3..6 min
        treat place_of_work takes 1..2 min
      }
      lane table by assistant { note "Prepares what comes next" }
    }
    wait 2..5 min
    treat place_of_work takes 2..4 min by resident
    wait until mix_${round} is wetted for 10 min
    pack mix_${round} by surgeon`,
)}
  }
}
`;

/** One figure more here, and the third mix can dry out: a warning. Taking it away mends it. */
export const VISIT_SLIP: { readonly at: number; readonly text: string } = slip();

function rounds(line: (round: number) => string): string {
  return Array.from({ length: 6 }, (_, round) => line(round)).join('\n');
}

function slip(): typeof VISIT_SLIP {
  const third = VISIT.indexOf('wet mix_3');
  const before = 'takes 4..6';
  return { at: VISIT.indexOf(before, third) + before.length, text: '0' };
}
