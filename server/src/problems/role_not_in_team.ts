import type { Things } from '../analysis/protocol/things.ts';
import { type Place, problemKind } from './problem.ts';
import { listWords, meant, plain } from './words.ts';

interface Data {
  readonly role: string;
  readonly team: readonly string[];
  readonly things: Things;
  readonly place: Place;
}

export const roleNotInTeam = problemKind<Data>({
  code: 'role_not_in_team',
  severity: 'error',
  title: 'Role not in the team',
  page: `A step is given to a role that the protocol's \`team\` does not have, so there would be nobody in the room to do it.

Add the role to the team, or give the step to somebody who is there.`,
  triggers: `
// quiet: missing_head
action retract (place p)

protocol clean "Clean a socket" {
  given { site : place }
  team { surgeon }
  visit surgery "Surgery" {
    retract site by assistant
    //              ^^^^^^^^^ role_not_in_team
  }
}
`,
  silent: `
// quiet: missing_head
action retract (place p)

protocol clean "Clean a socket" {
  given { site : place }
  team { surgeon, assistant }
  visit surgery "Surgery" {
    retract site by assistant
  }
}
`,
  words: ({ role, team, things, place }) => {
    const block = things.key.find((statement) => statement.type === 'team');
    const near = meant(role, team, place);
    return {
      message: `There is no ${plain(role)} in the team${team.length > 0 ? ` (${listWords(team.map(plain), 'and')})` : ''}.${near.sentence}`,
      label: 'not in the team',
      mends: [
        ...near.mends,
        ...(block
          ? [
              {
                title: `Add "${role}" to the team`,
                edits: [{ type: 'append' as const, file: place.file, statement: block.id, lines: [role] }],
              },
            ]
          : []),
      ],
    };
  },
});
