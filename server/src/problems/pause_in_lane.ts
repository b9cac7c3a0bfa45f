import { type Mend, type Place, problemKind } from './problem.ts';
import { sentence, whenHead } from './words.ts';

interface Step {
  readonly label: string;
  readonly lane: string;
  readonly place: Place;
}

interface Data {
  readonly pause: Step;
  /** work in another lane that goes on meanwhile */
  readonly other: Step;
  readonly always: boolean;
  readonly when: string;
  readonly tries: readonly Mend[];
}

export const pauseInLane = problemKind<Data>({
  code: 'pause_in_lane',
  severity: 'warning',
  title: 'Pause while others work on',
  page: `At a pause everybody stops and listens: that is what it is for. This one stands in one lane of work side by side while somebody is at work in another, who cannot take part, and whose work nobody has agreed to go on with.

Hold the pause before the lanes begin or when they are over. What must not be interrupted can be taken out of the lanes instead. While the other lanes only wait, a pause in a lane is no matter.`,
  triggers: `
// quiet: missing_head
action extract (place p) {
  takes 10..40 min
}
action trim (material m) {
  takes 2..3 min
}
pause time_out "Time out" {
  item  "Site and side said aloud"
  takes 1..2 min
  by    surgeon
}

protocol graft_socket "Graft a socket" {
  given { site : place }
  team { surgeon, assistant }
  materials { cover : material }
  visit surgery "Surgery" {
    together {
      lane chairside by surgeon {
        pause time_out
//      ^^^^^^^^^^^^^^ pause_in_lane
        extract site
      }
      lane side_table by assistant {
        trim cover
      }
    }
  }
}
`,
  silent: `
// quiet: missing_head
action extract (place p) {
  takes 10..40 min
}
action trim (material m) {
  takes 2..3 min
}
pause time_out "Time out" {
  item  "Site and side said aloud"
  takes 1..2 min
  by    surgeon
}

protocol graft_socket "Graft a socket" {
  given { site : place }
  team { surgeon, assistant }
  materials { cover : material }
  visit surgery "Surgery" {
    pause time_out
    together {
      lane chairside by surgeon {
        extract site
      }
      lane side_table by assistant {
        trim cover
      }
    }
  }
}
`,
  words: ({ pause, other, always, when, tries }) => ({
    message: `${sentence(`${whenHead(when)}"${other.label}" (${other.lane}) ${always ? 'goes' : 'may go'} on during the pause "${pause.label}" (${pause.lane}); a pause is for everybody.`)}`,
    label: 'others work on',
    related: [{ place: other.place, message: 'goes on meanwhile' }],
    tries,
  }),
});
