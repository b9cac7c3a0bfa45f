import type { TimelineRow } from '@curette/shared';

/** The stretch of time that a drawing shows, seconds, and where it is marked. */
export interface Axis {
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly { readonly at: number; readonly label: string }[];
}

/** Steps between two marks that are easily counted in, seconds. */
const STEPS = [60, 120, 300, 600, 900, 1800, 3600, 7200, 14_400, 28_800, 86_400, 172_800, 432_000, 864_000];

/**
 * An axis over rows. What has no stated end is shown a little longer than all that has.
 * @param most marks that there is room for
 */
export function axisOf(rows: readonly TimelineRow[], most: number): Axis {
  const from = rows.reduce((least, row) => Math.min(least, row.start.earliest), Number.POSITIVE_INFINITY);
  const first = Number.isFinite(from) ? from : 0;
  const ends = rows.reduce((last, row) => Math.max(last, row.end.latest ?? row.end.earliest), first);
  const open = rows.some((row) => row.end.latest === null);
  const span = Math.max(60, (ends - first) * (open ? 1.08 : 1));
  const step = STEPS.find((one) => span / one <= most) ?? roundStep(span / most);
  const start = Math.floor(first / step) * step;
  // Not further than to the next mark: the rest would be empty.
  const end = Math.max(start + step, Math.ceil((first + span) / step - 1e-9) * step);
  const ticks: { at: number; label: string }[] = [];
  for (let at = start; at <= end + step / 1e6; at += step) ticks.push({ at, label: label(at, end) });
  return { from: start, to: end, ticks };
}

/** A whole number of weeks for work that lasts longer than any does. */
function roundStep(seconds: number): number {
  const week = 604_800;
  return 10 ** Math.ceil(Math.log10(Math.max(1, seconds / week))) * week;
}

/** In minutes up to four hours, then in hours, then in days. */
function label(at: number, end: number): string {
  if (end <= 4 * 3600) return `${Math.round(at / 60)}`;
  if (end <= 4 * 86_400) {
    const minutes = Math.round((at % 3600) / 60);
    return `${Math.floor(at / 3600)}:${`${minutes}`.padStart(2, '0')}`;
  }
  return `${Math.round(at / 86_400)}`;
}

/** What the marks count. */
export function unitOf({ to }: Axis): string {
  if (to <= 4 * 3600) return 'min';
  return to <= 4 * 86_400 ? 'h' : 'd';
}
