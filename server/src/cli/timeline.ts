import { readFirstVisit } from '../analysis/protocol/visit-dates.ts';
import { settingsOf } from '../analysis/settings.ts';
import { calendarOf } from '../render/checklist.ts';
import { unpainted } from '../render/problem-text.ts';
import { unfitWords } from '../render/sheet-words.ts';
import { visible } from '../render/text.ts';
import { timelineOf } from '../render/timeline.ts';
import { timelineSvg } from '../render/timeline-svg.ts';
import { timelineText } from '../render/timeline-text.ts';
import { openProtocol } from './declared-protocol.ts';
import { columns, painter, print, UsageError, writeWhole } from './output.ts';

export interface TimelineOptions {
  readonly protocol?: string;
  readonly case?: string;
  readonly format: 'text' | 'svg' | 'json';
  readonly out?: string;
  readonly first?: string;
}

/** Writes when the steps of a protocol can take place. One that is not fit for use says so, and here. @returns the exit status */
export function timeline(path: string, options: TimelineOptions): number {
  const first = options.first === undefined ? undefined : readFirstVisit(options.first);
  if (options.first !== undefined && !first)
    throw new UsageError(visible(`"${options.first}" is no day of the calendar. Write it as 2027-01-31.`));
  const { workspace, facts, protocol, ofCase } = openProtocol(path, options.protocol, options.case);
  const calendar =
    first && options.first !== undefined
      ? { first, given: options.first, settings: settingsOf(workspace.snapshot(), facts.file.id) }
      : calendarOf(ofCase);
  const line = timelineOf(facts, protocol, workspace.facts, calendar, ofCase);
  const toFile = options.out !== undefined;
  const text =
    options.format === 'svg'
      ? timelineSvg(line)
      : options.format === 'json'
        ? `${JSON.stringify(line, null, 2)}\n`
        : timelineText(line, { width: toFile ? IN_A_FILE : columns(), paint: toFile ? unpainted : painter() });
  if (options.out === undefined) print(text);
  else writeWhole(options.out, text);
  if (!line.fit) process.stderr.write(`${visible(line.name)} is not fit for use: ${unfitWords(line)}\n`);
  return 0;
}

/** Columns of a text that goes into a file. */
const IN_A_FILE = 120;
