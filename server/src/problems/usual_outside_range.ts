import type { Measure, QuantityNode } from '@curette/grammar';
import { formatQuantity, type Quantity } from '@curette/shared';
import { type Mend, type Place, problemKind } from './problem.ts';
import { measureSource, rangeSource } from './words.ts';

interface Data {
  readonly takes: Quantity;
  readonly usual: Quantity;
  /** what it takes, as written */
  readonly node: QuantityNode;
  readonly usually: QuantityNode;
  readonly place: Place;
  /** from the end of what it may take to the end of what it usually takes */
  readonly rest: Place;
}

export const usualOutsideRange = problemKind<Data>({
  code: 'usual_outside_range',
  severity: 'error',
  title: 'Usual time outside its range',
  page: `A line says that something usually takes a time which, by the same line, it never takes. One of the two is wrong. Limits are checked against the range; if the usual time is the true one, they are checked against too little.

Widen the range to what really happens, or correct the usual time.`,
  triggers: `
// quiet: missing_head
action extract (place p) {
  takes 10..20 min usually 30 min
  //                       ^^^^^^ usual_outside_range
}

protocol extraction "Extraction" {
  given { site : place }
  visit surgery "Surgery" {
    extract site takes 15 min usually 1 h
    //                                ^^^ usual_outside_range
  }
}
`,
  silent: `
// quiet: missing_head
action extract (place p) {
  takes 10..20 min usually 15 min
}

protocol extraction "Extraction" {
  given { site : place }
  visit surgery "Surgery" {
    extract site takes 15..60 min usually 1 h
  }
}
`,
  words: (data) => {
    const { takes, usual, place, rest } = data;
    const wider = widened(data);
    const widen: Mend[] =
      wider === undefined ? [] : [{ title: `Widen to "${wider}"`, edits: [{ type: 'replace', place, text: wider }] }];
    return {
      message: `It cannot usually take ${formatQuantity(usual)} if it takes ${formatQuantity(takes)}.`,
      label: `not within ${formatQuantity(takes)}`,
      mends: [...widen, { title: 'Leave out the usual time', edits: [{ type: 'replace', place: rest, text: '' }] }],
    };
  },
});

/** What it takes with the usual time for its nearer end. */
function widened({ takes, usual, node, usually }: Data): string | undefined {
  const { low, high, form } = node;
  const most = usually.low ?? usually.high;
  if (!most) return undefined;
  const longer = usual.range.lo > takes.range.hi;
  const whole = (measure: Measure | undefined) => measure && { ...measure, unit: measure.unit ?? high?.unit };
  switch (form) {
    case 'plain':
    case 'exactly':
    case 'range': {
      const from = longer ? whole(low) : most;
      const to = longer ? most : (high ?? low);
      return from && to && rangeSource(from, to);
    }
    case 'at least':
    case 'at most':
      return `${form} ${measureSource(most)}`;
    case 'ratio':
      return undefined;
    default:
      return form satisfies never;
  }
}
