import {
  formatQuantity,
  type TimelineClock,
  type TimelineIdle,
  type TimelineMoment,
  type TimelineRow,
  type TimelineVisit,
} from '@curette/shared';
import { timeQuantity } from '../analysis/protocol/flow-words.ts';
import { durationWords } from './words.ts';

interface Range {
  readonly lo: number;
  readonly hi: number;
}

/** When something begins, in seconds since the beginning of the visit: "0 min", "12–25 min", "from 12 min on". */
export function beginsWords({ lo, hi }: Range): string {
  if (!Number.isFinite(hi)) return `from ${lengthWords(lo)} on`;
  return hi === 0 ? '0 min' : (durationWords({ lo, hi, stated: true }) ?? '0 min');
}

/** How long something lasts, seconds: "3–8 min", "at least 3 min"; null when it takes no time, or nothing is stated. */
export function lastsWords({ lo, hi }: Range): string | null {
  return durationWords({ lo, hi, stated: Number.isFinite(hi) }) ?? null;
}

/** One length, seconds, to the nearest that is of account: "45 s", "7.5 min", "68 min". */
export function lengthWords(seconds: number): string {
  const step = seconds < 60 ? 1 : seconds < 900 ? 6 : 60;
  return formatQuantity(timeQuantity(Math.round(seconds / step) * step), { digits: 3 });
}

export function endlessToNull(seconds: number): number | null {
  return Number.isFinite(seconds) ? seconds : null;
}

/** When something can be, seconds. */
export function moment({ lo, hi }: { readonly lo: number; readonly hi: number }): TimelineMoment {
  return { earliest: lo, latest: endlessToNull(hi) };
}

export function nullToEndless(seconds: number | null): number {
  return seconds ?? Number.POSITIVE_INFINITY;
}

/** How long a visit occupies the chair. */
export function chairWords(visit: TimelineVisit): string {
  if (visit.time === null) return 'Nothing in it says how long it takes.';
  const { played } = visit;
  const range = `The chair is occupied for ${visit.time}`;
  if (!played) return `${range}; not everything in it says how long it takes at most.`;
  if (visit.chair.shortest === visit.chair.longest) return `${range}.`;
  return `${range}: half of the runs take at most ${lengthWords(played.median)}, nine of ten at most ${lengthWords(played.p90)}.`;
}

/** What the figures of `chairWords` rest on; undefined when there are none. */
export function playedWords(visit: TimelineVisit): string | undefined {
  const { played } = visit;
  if (!played || visit.chair.shortest === visit.chair.longest) return undefined;
  const { samples, seed, drawn, evenly, decisions } = played;
  const lengths =
    evenly === 0
      ? `${manyLengths(drawn, drawn)} drawn around what is usual.`
      : `${manyLengths(evenly, drawn)} drawn evenly between shortest and longest, because nothing says what is usual.`;
  const options =
    decisions === 0
      ? ''
      : ` The options of ${decisions === 1 ? 'its decision' : `its ${decisions} decisions`} are taken as equally likely, without those that end the visit.`;
  return `Played ${samples.toLocaleString('en-US')} times (seed ${seed}). ${lengths}${options} Checks turn out well, complications are left out, and waits that may be chosen are as short as they may be.`;
}

/** "Its one length that varies is", "All 5 lengths that vary are", "4 of the 5 lengths that vary are" */
function manyLengths(some: number, all: number): string {
  if (all === 1) return 'The one length that varies is';
  return `${some === all ? `All ${all}` : `${some} of the ${all}`} lengths that vary ${some === 1 ? 'is' : 'are'}`;
}

/** Whether anything is marked as critical: where every step is, a mark says nothing. */
export function criticalWords(visit: TimelineVisit): string | undefined {
  if (visit.rows.length === 0 || visit.time === null) return undefined;
  return visit.series
    ? 'All work is in series: whatever takes longer makes the visit longer.'
    : 'What is marked as critical makes the visit longer when it takes longer.';
}

/** "critical", "9 min spare"; undefined where every row is critical. */
export function marginWords(visit: TimelineVisit, row: TimelineRow): string | undefined {
  if (visit.series || row.type === 'group') return undefined;
  if (row.critical) return 'critical';
  return row.slack === null ? undefined : `${lengthWords(row.slack)} spare`;
}

/** "12–50 min allowed, 16–45 min in the order of work: holds" */
export function clockWords({ words, answer }: TimelineClock): string {
  if (words.given === null || answer === 'not told') return `${words.allowed} allowed; ${words.answer}`;
  return `${words.allowed} allowed, ${words.given} in the order of work: ${words.answer}`;
}

/** "from 6 “Wet graft” to 13 “Pack graft”" */
export function clockSpanWords({ since, until, when }: TimelineClock): string {
  const from = since ? `from the end of ${named(since)}` : 'from before this visit';
  return `${from} to the beginning of ${named(until)}${when === null ? '' : `, if ${when}`}`;
}

function named({ label, number }: TimelineClock['until']): string {
  return number === null ? `“${label}”` : `${number} “${label}”`;
}

/** "Assistant: 10–22 min, from 12 min on" */
export function idleWords({ who, text, words }: TimelineIdle): string {
  const from = words.from.startsWith('from') ? words.from : `beginning at ${words.from}`;
  return `${who.length > 0 ? who.join(', ') : 'Everybody'}: ${words.lasts}, ${from} (${text})`;
}

/** "Surgeon", "Surgeon or Resident"; undefined where nothing is said. */
export function whoWords({ type, who, may }: TimelineRow): string | undefined {
  if (who.length > 0) return who.join(', ');
  if (type === 'wait') return 'everybody';
  return may.length > 0 ? may.join(' or ') : undefined;
}

/** "2026-05-04 to 2026-05-07, 3 open days"; undefined when the day of the first visit is not given. */
export function datesWords({ dates }: Pick<TimelineVisit, 'dates'>): string | undefined {
  if (!dates) return undefined;
  const { earliest, latest, days, note } = dates;
  const span =
    earliest === null
      ? 'cannot be told'
      : latest === null
        ? `${earliest} or later`
        : earliest === latest
          ? earliest
          : `${earliest} to ${latest}`;
  const open = days !== null && days > 1 ? `${days} open days` : undefined;
  return [span, open, note].filter((part) => part !== undefined && part !== null).join(', ');
}
