import { formatQuantity, type Quantity } from '@curette/shared';
import { type Place, problemKind } from './problem.ts';

interface Data {
  readonly thing: string;
  readonly listed: Quantity;
  /** used over all visits, least and most */
  readonly total: Quantity;
  readonly always: boolean;
  readonly steps: readonly Place[];
}

export const overUsed = problemKind<Data>({
  code: 'over_used',
  severity: 'error',
  title: 'More used than there is',
  page: `The steps of the protocol together use more of a material than is listed: on every path (an error), or on some (a warning). Amounts are added over all visits; over a decision the option that uses most counts, over a repetition as often as it may be done.

List more, use less, or correct the slip. An amount in cartridges or ampoules counts as what the material says is in one of them.`,
  triggers: `
// quiet: missing_head
action inject (material m) (volume v) at (place p) {
  uses up m v
}

protocol block "Numb both sides" {
  given { left : place, right : place }
  materials { numbing : material 3 mL }
  //                             ^^^^ over_used
  visit block "Block" {
    inject numbing 1.7 mL at left
    inject numbing 1.7 mL at right
  }
}
`,
  silent: `
// quiet: missing_head
action inject (material m) (volume v) at (place p) {
  uses up m v
}

protocol block "Numb both sides" {
  given { left : place, right : place }
  materials { numbing : material 3.4 mL }
  visit block "Block" {
    inject numbing 1.7 mL at left
    inject numbing 1.7 mL at right
  }
}
`,
  words: ({ thing, listed, total, always, steps }) => ({
    message: `The steps use ${formatQuantity(total)} of "${thing}"; ${formatQuantity(listed)} is listed.`,
    severity: always ? 'error' : 'warning',
    label: `${formatQuantity(total)} used`,
    related: steps.map((place) => ({ place, message: `uses "${thing}"` })),
  }),
});
