import type { DueOutput, DueProtocol } from '@curette/shared';
import type { FileFacts } from '../analysis/analysis.ts';
import { addDays, type CalendarDate, compareDates, writeDate } from '../analysis/calendar/date.ts';
import type { ProtocolFacts } from '../analysis/protocol/protocol.ts';
import { reviewDueOf } from '../analysis/protocol/review.ts';
import { firstOf, titleOf } from './sheet-head.ts';
import { visible } from './text.ts';

/** A file as whoever asked names it. */
export interface ReviewedFile {
  readonly path: string;
  readonly facts: FileFacts;
}

/**
 * The protocols whose review is overdue on a day, or falls due soon after it; drafts and retired ones are not asked.
 * @param within how many days after it
 */
export function dueReviews(files: readonly ReviewedFile[], on: CalendarDate, within: number): DueOutput {
  const until = addDays(on, within) ?? on;
  const protocols: DueProtocol[] = [];
  const undated: DueOutput['undated'] = [];
  for (const { path, facts } of files)
    for (const protocol of facts.protocols) {
      const head = headOf(protocol);
      if (head.status === 'draft' || head.status === 'retired') continue;
      const { name, title } = head;
      const counted = reviewDueOf(protocol.context.module, protocol.statement);
      if (!counted) undated.push({ path, name, title });
      else if (compareDates(counted.due, until) <= 0)
        protocols.push({
          path,
          ...head,
          last: writeDate(counted.last),
          counted: counted.counted,
          due: writeDate(counted.due),
          overdue: compareDates(on, counted.due) > 0,
        });
    }
  protocols.sort((a, b) => (a.due < b.due ? -1 : a.due > b.due ? 1 : a.path < b.path ? -1 : 1));
  return { version: 1, on: writeDate(on), protocols, undated };
}

/** The list to read, a protocol a paragraph. */
export function dueText({ on, protocols, undated }: DueOutput): string {
  const lines = protocols.flatMap(({ path, title, version, owner, last, counted, due, overdue }) => [
    `${overdue ? 'Overdue since' : 'Due on'} ${due}  ${visible(title)}${version === null ? '' : `, version ${visible(version)}`}`,
    `  ${visible(path)}; ${counted} ${last}${owner === null ? '' : `; ${visible(owner)}`}`,
  ]);
  const none = protocols.length === 0 ? [`No review is due on ${on}.`] : [];
  const asked = undated.map(({ path, title }) => `No day to count from: ${visible(title)} (${visible(path)})`);
  return `${[...lines, ...none, ...(asked.length > 0 ? ['', ...asked] : [])].join('\n')}\n`;
}

function headOf({ statement }: ProtocolFacts): Pick<DueProtocol, 'name' | 'title' | 'version' | 'status' | 'owner'> {
  return {
    name: statement.name?.text ?? '',
    title: titleOf(statement),
    version: firstOf(statement, 'version')?.version?.text ?? null,
    status: firstOf(statement, 'status')?.status?.text ?? null,
    owner: firstOf(statement, 'owner')?.owner?.value ?? null,
  };
}
