import { type Mend, type Place, problemKind } from './problem.ts';
import { listWords, plain, sentence } from './words.ts';

interface Data {
  /** the thing or the finding, as it is called */
  readonly name: string;
  /** a value without a name fits none, or several, of a thing's properties; or a finding's line is no single finding */
  readonly problem: 'nothing fits' | 'several fit' | 'one finding';
  readonly candidates: readonly string[];
  /** what could stand around the value */
  readonly mends: readonly { readonly before: string; readonly after: string; readonly place: Place }[];
}

export const caseValueUnclear = problemKind<Data>({
  code: 'case_value_unclear',
  severity: 'error',
  title: 'Value that fits nowhere',
  page: `A case may give a value without saying of what when only one property of the thing can have it: \`site 14\` is the tooth's number. Here none can, or several can, so it is not known what is meant. A finding takes one of its own values, and nothing else.

Name the property: \`socket { depth 11 mm }\`.`,
  triggers: `
// quiet: missing_head
kind hollow "hollow" is place {
  depth : length
  width : length
}

protocol fill "Fill a hollow" {
  given { socket : hollow { depth 9..13 mm } }
  visit surgery "Surgery" {
    note "Look"
  }
}

case first of fill {
  socket 11 mm
  //     ^^^^^ case_value_unclear
}
`,
  silent: `
// quiet: missing_head
kind hollow "hollow" is place {
  depth : length
  width : length
}

protocol fill "Fill a hollow" {
  given { socket : hollow { depth 9..13 mm } }
  visit surgery "Surgery" {
    note "Look"
  }
}

case first of fill {
  socket { depth 11 mm }
}
`,
  words: ({ name, problem, candidates, mends }) => {
    const list = listWords(candidates.map(plain), problem === 'one finding' ? 'or' : 'and');
    return {
      message: messageOf(name, problem, list),
      label: problem === 'one finding' ? 'one of its values' : 'of what?',
      mends: mends.flatMap(({ before, after, place }, i): Mend[] => [
        {
          title: `Say that it is the ${plain(candidates[i] ?? '')}`,
          edits: [
            {
              type: 'replace',
              place: { ...place, span: { start: place.span.start, end: place.span.start } },
              text: before,
            },
            { type: 'replace', place: { ...place, span: { start: place.span.end, end: place.span.end } }, text: after },
          ],
        },
      ]),
    };
  },
});

function messageOf(name: string, problem: Data['problem'], list: string): string {
  switch (problem) {
    case 'one finding':
      return `${sentence(name)} is found to be one of its values: ${list}.`;
    case 'several fit':
      return `Of "${name}" this could be ${list}. Write which.`;
    case 'nothing fits':
      return list === ''
        ? `Nothing can be said of "${name}": it has no properties.`
        : `This is none of what can be said of "${name}": ${list}.`;
    default:
      return problem satisfies never;
  }
}
