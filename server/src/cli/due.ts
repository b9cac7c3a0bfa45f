import { readDate } from '../analysis/calendar/date.ts';
import { dueReviews, dueText } from '../render/due-reviews.ts';
import { visible } from '../render/text.ts';
import { openInputs, today } from './inputs.ts';
import { print, UsageError } from './output.ts';

export interface DueOptions {
  readonly on?: string;
  readonly within: string;
  readonly format: 'text' | 'json';
}

/** Lists the protocols whose review is overdue or falls due soon. @returns the exit status: 1 when one is overdue */
export function due(paths: readonly string[], options: DueOptions): number {
  const day = options.on ?? today();
  const on = readDate(day);
  if (!on) throw new UsageError(visible(`"${day}" is no day of the calendar. Write it as 2027-01-31.`));
  if (!/^\d{1,5}$/.test(options.within))
    throw new UsageError(visible(`"${options.within}" is no number of days. Write it as 60.`));
  const inputs = openInputs(paths.length > 0 ? paths : ['.'], (sentence) => process.stderr.write(`${sentence}\n`));
  let unread = false;
  const files = inputs.flatMap((input) =>
    input.ids.flatMap((id) => {
      const facts = input.workspace.facts(id);
      if (facts && facts.file.trouble === undefined) return [{ path: input.name(id), facts }];
      process.stderr.write(`${visible(input.name(id))} could not be read.\n`);
      unread = true;
      return [];
    }),
  );
  const list = dueReviews(files, on, Number(options.within));
  print(options.format === 'json' ? `${JSON.stringify(list, null, 2)}\n` : dueText(list));
  if (unread) return 2;
  return list.protocols.some(({ overdue }) => overdue) ? 1 : 0;
}
