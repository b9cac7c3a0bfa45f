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
  title: 'Nobody of that role in the team',
  page: `A step is given to a role that the protocol's \`team\` does not have.`,
  triggers: '',
  silent: '',
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
