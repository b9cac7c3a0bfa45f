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
  page: `The steps of the protocol together use more of a material than is listed, on every path (an error) or on some (a warning). Amounts are added over all visits; over a decision the option that uses most counts.`,
  triggers: '',
  silent: '',
  words: ({ thing, listed, total, always, steps }) => ({
    message: `The steps use ${formatQuantity(total)} of "${thing}"; ${formatQuantity(listed)} is listed.`,
    severity: always ? 'error' : 'warning',
    label: `${formatQuantity(total)} used`,
    related: steps.map((place) => ({ place, message: `uses "${thing}"` })),
  }),
});
