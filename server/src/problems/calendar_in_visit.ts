import { formatQuantity, type Quantity } from '@curette/shared';
import { problemKind } from './problem.ts';

interface Data {
  readonly quantity: Quantity;
}

export const calendarInVisit = problemKind<Data>({
  code: 'calendar_in_visit',
  severity: 'error',
  title: 'Months within a visit',
  page: `Months and years are calendar time and belong between visits (\`wait 4..6 mo\` beside the visits). Inside a visit time runs by the clock: seconds, minutes, hours. Often \`mo\` was typed for \`min\`.`,
  triggers: '',
  silent: '',
  words: ({ quantity }) => ({
    message: `${formatQuantity(quantity)} is calendar time and belongs between visits; inside a visit time is in minutes or hours.`,
    label: 'calendar time inside a visit',
  }),
});
