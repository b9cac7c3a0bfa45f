import type { Way } from '../analysis/protocol/flow-words.ts';
import { type Mend, problemKind, type Related, type SourceNote } from './problem.ts';
import { listWords, plain, sentence, statesWords, whenHead } from './words.ts';

interface Data {
  readonly thing: string;
  /** the states it may end in */
  readonly allowed: readonly string[];
  /** where that falls due: "at the end of the visit" */
  readonly by: string;
  readonly ways: readonly Way[];
  readonly always: boolean;
  readonly because: string | undefined;
  readonly source: SourceNote | undefined;
  readonly related: readonly Related[];
  readonly mends: readonly Mend[];
}

export const leftUndone = problemKind<Data>({
  code: 'left_undone',
  severity: 'error',
  title: 'Left as it must not be',
  page: `Some things must be in a certain state by the end of a visit, by the end of the protocol, or before a pause: what goes into the patient comes out again, what is opened is used or thrown away, what is cut is closed. On every path, or on the path that the message names, it is not.

This is how a pack, a swab or a stitch is left behind: everything is right on the path one thinks of, and wrong on the other.

Add the step that is missing, on the path where it is missing. Where the library knows the step, it is offered. Before a \`stop\` the same holds as at the end of the visit: the patient leaves there as well.`,
  triggers: `
// quiet: missing_head
finding bleeding "Bleeding" { stopped, brisk }

kind pack "throat pack" is material {
  states   counted -> in_place -> removed
  must end counted or removed by end of visit because "What goes in comes out" source common_practice
}
action place (pack p) {
  makes p in_place
}
action remove (pack p) {
  makes p removed
}

protocol extraction "Extraction" {
  materials { screen : pack }
  visit surgery "Surgery" {
    place screen
    //    ^^^^^^ left_undone
    decide bleeding "Look once more" {
      option stopped {
        remove screen
      }
      option brisk {
        note "Press for five minutes"
      }
    }
  }
}
`,
  silent: `
// quiet: missing_head
finding bleeding "Bleeding" { stopped, brisk }

kind pack "throat pack" is material {
  states   counted -> in_place -> removed
  must end counted or removed by end of visit because "What goes in comes out" source common_practice
}
action place (pack p) {
  makes p in_place
}
action remove (pack p) {
  makes p removed
}

protocol extraction "Extraction" {
  materials { screen : pack }
  visit surgery "Surgery" {
    place screen
    decide bleeding "Look once more" {
      option stopped {
        remove screen
      }
      option brisk {
        note "Press for five minutes"
        remove screen
      }
    }
  }
}
`,
  words: ({ thing, allowed, by, ways, because, source, related, mends }) => ({
    message: `${ways.map((way) => sentence(`${whenHead(way.when)}"${thing}" is still ${plain(way.state)} ${by}.`)).join(' ')} It has to be ${listWords(allowed.map(plain))} by then.`,
    label: `still ${statesWords(ways)} ${by}`,
    why: because,
    source,
    related,
    mends,
  }),
});
