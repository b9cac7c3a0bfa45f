import { type Place, problemKind } from './problem.ts';
import { listWords, meant, plain, sentence } from './words.ts';

interface Data {
  /** "colour of drug", or the entry or kind: "gauze" */
  readonly what: string;
  readonly set: string;
  readonly group: string;
  /** what the set may state of it */
  readonly properties: readonly string[];
  readonly place: Place;
  readonly name: string;
}

export const figureOutsideGroup = problemKind<Data>({
  code: 'figure_outside_group',
  severity: 'error',
  title: 'Does not belong to the set',
  page: `A set of figures states only what comes from its group: properties that their kind declares with \`from\` and the name of the group. This line states something else, or speaks of something that takes nothing from the group; it does not count.

State it with the thing itself, or, if bodies disagree about it as well, have its kind say \`from\` and the group.`,
  triggers: `
kind drug "drug" is material {
  ceiling : mass from ceilings
  onset   : time
}
kind gauze "gauze" is material
drug numbing_drug "Numbing drug"
figures house_ceilings "Ceilings of the house" of ceilings {
  numbing_drug {
    ceiling 500 mg source common_practice
    onset   3 min source common_practice
//  ^^^^^ figure_outside_group
  }
  gauze { }
//^^^^^ figure_outside_group
}
`,
  silent: `
kind drug "drug" is material {
  ceiling : mass from ceilings
  onset   : time
}
drug numbing_drug "Numbing drug" {
  onset 3 min source common_practice
}
figures house_ceilings "Ceilings of the house" of ceilings {
  numbing_drug { ceiling 500 mg source common_practice }
}
`,
  words: ({ what, set, group, properties, place, name }) => {
    const { sentence: guess, mends } = meant(name, properties, place);
    const takes =
      properties.length > 0
        ? ` What comes from a set of ${plain(group)} is ${listWords(properties.map(plain), 'and')}.`
        : ` It takes nothing from a set of ${plain(group)}.`;
    return {
      message: `${sentence(plain(what))} does not belong to "${set}".${guess === '' ? takes : guess}`,
      label: `not from a set of ${plain(group)}`,
      mends,
    };
  },
});
