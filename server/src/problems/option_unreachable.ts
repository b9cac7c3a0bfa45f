import { type FileId, problemKind } from './problem.ts';

interface Data {
  readonly label: string;
  readonly file: FileId;
  readonly statement: number;
}

export const optionUnreachable = problemKind<Data>({
  code: 'option_unreachable',
  severity: 'warning',
  title: 'Option never taken',
  page: `Options above already take every finding that this one names, so nobody ever gets to it. What it says, perhaps something important, is never done.

Often an option was copied and its finding not changed. Correct what it names, move it above the wider one, or remove it.`,
  triggers: `
// quiet: missing_head
finding buccal_wall "Buccal wall" { intact, windowed, lost }

protocol graft_socket "Graft a socket" {
  visit surgery "Surgery" {
    decide buccal_wall "Probe the wall" {
      option intact { }
      option windowed or lost { note "Plan a flap" }
      option lost { note "Plan a flap and a barrier membrane" }
//    ^^^^^^^^^^^ option_unreachable
    }
  }
}
`,
  silent: `
// quiet: missing_head
finding buccal_wall "Buccal wall" { intact, windowed, lost }

protocol graft_socket "Graft a socket" {
  visit surgery "Surgery" {
    decide buccal_wall "Probe the wall" {
      option intact { }
      option windowed { note "Plan a flap" }
      option lost { note "Plan a flap and a barrier membrane" }
    }
  }
}
`,
  words: ({ label, file, statement }) => ({
    message: `The option "${label}" is never taken: options above it cover all that it names.`,
    label: 'never taken',
    mends: [{ title: 'Remove the option', edits: [{ type: 'remove', file, statement }] }],
  }),
});
