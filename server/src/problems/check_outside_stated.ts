import { type Place, problemKind } from './problem.ts';
import { plain } from './words.ts';

interface Data {
  readonly property: string;
  readonly thing: string;
  /** in words */
  readonly accepts: string;
  readonly states: string;
  /** what states it: the catalogue's entry, a limit of what is used; or the protocol, which is the plan */
  readonly by: 'entry' | 'protocol';
  /** nothing that is accepted is among what is stated */
  readonly wholly: boolean;
  /** what is stated, as it is written */
  readonly text: string;
  readonly place: Place;
  readonly stated: Place;
}

export const checkOutsideStated = problemKind<Data>({
  code: 'check_outside_stated',
  severity: 'warning',
  title: 'Check against other figures than stated',
  page: `A check accepts measurements that lie outside what is stated of the same thing. Either the check lets through what it is there to stop, or what is stated is not what is meant.

What a catalogue entry states is a limit of that product: a check that reaches outside it is an error. What the protocol states is its plan: a check that reaches outside it is a warning, and one that accepts nothing of it an error. A narrower check is fine.`,
  triggers: `
// quiet: missing_head
kind anchor "bone anchor" is material { torque : torque range }
anchor short_anchor "Short anchor" { torque 20..35 N.cm source common_practice }
action place (anchor a) { takes 1..2 min }

protocol fasten "Fasten an anchor" {
  materials { screw : short_anchor }
  visit surgery "Surgery" {
    place screw
    verify torque of screw within 20..70 N.cm otherwise "Take it out"
    //                            ^^^^^^^^^^^ check_outside_stated
  }
}
`,
  silent: `
// quiet: missing_head
kind anchor "bone anchor" is material { torque : torque range }
anchor short_anchor "Short anchor" { torque 20..35 N.cm source common_practice }
action place (anchor a) { takes 1..2 min }

protocol fasten "Fasten an anchor" {
  materials { screw : short_anchor }
  visit surgery "Surgery" {
    place screw
    verify torque of screw within 25..35 N.cm otherwise "Take it out"
  }
}
`,
  words: ({ property, thing, accepts, states, by, wholly, text, place, stated }) => {
    const who = by === 'entry' ? 'its catalogue entry' : 'the protocol';
    return {
      severity: wholly || by === 'entry' ? 'error' : 'warning',
      message: `This check accepts ${accepts} as the ${plain(property)} of "${thing}"; ${who} states ${states}, and ${wholly ? 'nothing of that is accepted' : 'this reaches outside it'}.`,
      label: `stated: ${states}`,
      related: [{ place: stated, message: `what ${who} states` }],
      mends: [{ title: `Change to "${text}"`, edits: [{ type: 'replace', place, text }] }],
    };
  },
});
