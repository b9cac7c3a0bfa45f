import { type FileId, type Place, problemKind } from './problem.ts';

interface Data {
  readonly after: Place;
  readonly file: FileId;
  readonly statement: number;
}

export const unreachableStep = problemKind<Data>({
  code: 'unreachable_step',
  severity: 'warning',
  title: 'Never reached',
  page: `Every path stops before this line, so it and what follows are never done, and they were not checked. Often it is something that was meant to be done on the way out: a count, a note, a pack to be removed.

Move it above the \`stop\`, or let at least one path go on.`,
  triggers: `
// quiet: missing_head
finding socket_wall "Socket wall" { intact, lost }

protocol graft_socket "Graft a socket" {
  visit surgery "Surgery" {
    decide socket_wall "Probe the wall" {
      option intact { stop "No graft needed" }
      option lost { stop "Refer for a flap" }
    }
    note "Write down what was done"
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ unreachable_step
  }
}
`,
  silent: `
// quiet: missing_head
finding socket_wall "Socket wall" { intact, lost }

protocol graft_socket "Graft a socket" {
  visit surgery "Surgery" {
    decide socket_wall "Probe the wall" {
      option intact { }
      option lost { stop "Refer for a flap" }
    }
    note "Write down what was done"
  }
}
`,
  words: ({ after }) => ({
    message: 'Every path stops before this line; it and what follows are never done.',
    label: 'never reached',
    related: [{ place: after, message: 'every path ends here' }],
  }),
});
