const MINUTE = 60;
const HOUR = 3600;

/** Up to here times are told in minutes alone, as a list of cases is: "95–130 min" is read at a glance. */
const MINUTES_ALONE = 3 * HOUR;

/**
 * A range of time inside a visit, in the units of a clock: "30–90 s", "2.5–4 min", "12–47 min", "2 h 50 min to 3 h 5 min". What is cut
 * off is cut off outward, so that what is told never covers less than what was computed.
 * @param lo seconds
 * @param hi seconds, endless: "12 min or more"
 */
export function timeRangeWords(lo: number, hi: number): string {
  if (!Number.isFinite(hi)) return `${timeWords(lo, 'down')} or more`;
  const unit = unitFor(lo, hi);
  const from = steps(lo, unit.step, 'down');
  const to = steps(hi, unit.step, 'up');
  if (unit.name === undefined) return from === to ? clock(from) : `${clock(from)} to ${clock(to)}`;
  const low = figure(from / unit.size);
  const high = figure(to / unit.size);
  return low === high ? `${low} ${unit.name}` : `${low}–${high} ${unit.name}`;
}

/** One time inside a visit, in the same units. Seconds. */
export function timeWords(seconds: number, rounding: 'down' | 'up' | 'nearest' = 'nearest'): string {
  const unit = unitFor(seconds, seconds);
  const told = steps(seconds, unit.step, rounding);
  return unit.name === undefined ? clock(told) : `${figure(told / unit.size)} ${unit.name}`;
}

interface UnitOfTime {
  /** undefined: hours and minutes */
  readonly name: string | undefined;
  /** seconds */
  readonly size: number;
  /** what it is told in multiples of, seconds */
  readonly step: number;
}

function unitFor(lo: number, hi: number): UnitOfTime {
  const whole = lo % MINUTE === 0 && hi % MINUTE === 0;
  if (hi < 2 * MINUTE && !whole) return { name: 's', size: 1, step: 1 };
  if (hi < 10 * MINUTE) return { name: 'min', size: MINUTE, step: MINUTE / 10 };
  if (hi < MINUTES_ALONE) return { name: 'min', size: MINUTE, step: MINUTE };
  return { name: undefined, size: MINUTE, step: MINUTE };
}

/** Within a millionth of a step a sum of times is that step. */
function steps(seconds: number, step: number, rounding: 'down' | 'up' | 'nearest'): number {
  const exact = seconds / step;
  const near = Math.round(exact);
  if (rounding === 'nearest' || Math.abs(exact - near) < 1e-6) return near * step;
  return (rounding === 'down' ? Math.floor(exact) : Math.ceil(exact)) * step;
}

function clock(seconds: number): string {
  const hours = Math.floor(seconds / HOUR);
  const minutes = Math.round((seconds - hours * HOUR) / MINUTE);
  if (hours === 0) return `${minutes} min`;
  return minutes === 0 ? `${hours} h` : `${hours} h ${minutes} min`;
}

function figure(value: number): string {
  return String(Math.round(value * 10) / 10);
}
