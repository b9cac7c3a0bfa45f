import type { TimelineClock, TimelineIdle, TimelineRow, TimelineVisit } from '@curette/shared';
import { html, type Piece } from './markup.ts';
import { sentence } from './text.ts';
import { arrow, line, type Pen, rect, short } from './timeline-pen.ts';
import { BAR, box, CHART, type Chart, drawBandHead, drawWords } from './timeline-svg-row.ts';
import { clockSpanWords, clockWords, lengthWords, marginWords, nullToEndless, whoWords } from './timeline-words.ts';

/** Waits, and lanes that are over before the others. */
export function drawWaiting(
  pen: Pen,
  visit: TimelineVisit,
  chart: Chart,
  rows: readonly TimelineRow[],
  first: number,
  last: number,
): void {
  const waits = rows.filter((row) => row.type === 'wait');
  const lanes = visit.idle.filter((idle) => idle.lane !== null && isIn(idle, visit, first, last));
  if (waits.length === 0 && lanes.length === 0) return;
  drawBandHead(pen, 'Waiting', ['begins', 'lasts']);
  for (const row of waits) {
    const margin = marginWords(visit, row);
    const who = whoWords(row) ?? '';
    const critical = margin === 'critical';
    const more = [...row.within, who, ...(margin && !critical ? [margin] : [])].join(', ');
    const { begins, takes } = row.words;
    const told = `${row.label}, begins ${begins}, lasts ${takes ?? 'no time'}, ${more}`;
    drawWords(
      pen,
      {
        number: row.number,
        label: row.label,
        line: row.line,
        more: [more],
        columns: [begins, takes ?? '0 min'],
        told,
        marked: critical ? 'critical' : undefined,
      },
      (middle) => box(row, chart, middle, ['rest', 'rest quickly']),
    );
  }
  for (const { text: label, who, from, until, words } of lanes) {
    const more = who.length > 0 ? [who.join(', ')] : [];
    const columns = [words.from, words.lasts] as const;
    const told = `${label}, ${words.lasts}`;
    drawWords(pen, { number: null, line: null, label: sentence(label), more, columns, told }, (middle) => {
      const x = chart.at(from.earliest);
      const right = chart.at(nullToEndless(until.latest));
      return rect('rest', x, middle - BAR / 2, Math.max(2.5, right - x), BAR);
    });
  }
}

/** Whether parallel work that is waited for ends among some of the rows. */
function isIn(idle: TimelineIdle, visit: TimelineVisit, first: number, last: number): boolean {
  const at = visit.rows.findLastIndex((row) =>
    row.within.some((one) => idle.lane !== null && one.includes(`“${sentence(idle.lane)}”`)),
  );
  return at === -1 ? first <= 0 : at >= first && at <= last;
}

/** From the moment a state begins: how old it may be in brackets, and how old it can be when the step begins that asks. */
export function drawClocks(pen: Pen, visit: TimelineVisit, chart: Chart, rows: readonly TimelineRow[]): void {
  const asked = visit.clocks.flatMap((clock) => {
    const { until } = clock;
    const asking = rows.find(
      (row) => row.number === until.number && row.label === until.label && row.start.earliest <= until.at.earliest,
    );
    return asking ? [{ clock, asking }] : [];
  });
  if (asked.length === 0) return;
  drawBandHead(pen, 'Clocks', ['allowed', 'given']);
  for (const { clock, asking } of asked) {
    const breaks = clock.answer === 'can break' || clock.answer === 'always breaks';
    drawWords(
      pen,
      {
        number: null,
        line: asking.line,
        label: `${clock.text}: ${clock.words.answer}`,
        more: [clockSpanWords(clock), ...handWords(clock)],
        columns: [clock.words.allowed, clock.words.given ?? '–'],
        told: `${clock.text}, ${clockSpanWords(clock)}: ${clockWords(clock)}`,
        marked: breaks ? 'breaks' : undefined,
      },
      (middle) => clockBar(clock, chart, middle),
    );
  }
}

/** How much is in hand when all takes as long as it may. */
function handWords({ allowed, given, answer }: TimelineClock): string[] {
  const longest = given?.longest ?? null;
  if (answer !== 'holds' || allowed.longest === null || longest === null) return [];
  const left = allowed.longest - longest;
  return left > 0 ? [`${lengthWords(left)} are left in the slowest run`] : [];
}

function clockBar({ since, allowed, given }: TimelineClock, chart: Chart, middle: number): Piece {
  if (!since) return false;
  const began = since.at.earliest;
  const half = 9;
  const opens = began + allowed.shortest;
  const closes = began + nullToEndless(allowed.longest);
  const [left, right] = [chart.at(opens), chart.at(closes)];
  const end = chart.isAfter(closes);
  return [
    // The shortest and the longest time allowed, and what lies between.
    !chart.isAfter(opens) && rect('allowed', left, middle - half, (end ? CHART.right : right) - left, 2 * half),
    given && line('ran', chart.at(began), middle, chart.at(began + given.shortest), middle),
    given &&
      rect(
        'slow',
        chart.at(began + given.shortest),
        middle - 4,
        Math.max(2.5, chart.at(began + nullToEndless(given.longest)) - chart.at(began + given.shortest)),
        8,
      ),
    line('bracket', chart.at(began), middle - 4, chart.at(began), middle + 4),
    !chart.isAfter(opens) &&
      html`<path class="bracket" d="M${short(left + 5)} ${short(middle - half)}h-5v${2 * half}h5"/>`,
    end
      ? arrow(CHART.right + 8, middle, 'right')
      : html`<path class="bracket" d="M${short(right - 5)} ${short(middle - half)}h5v${2 * half}h-5"/>`,
  ];
}
