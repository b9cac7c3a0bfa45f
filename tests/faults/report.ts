import type { Fault, Harmless } from './edit.ts';

/** How a row came out. */
export interface Outcome<Row> {
  readonly row: Row;
  /** told: a mistake where it stands, or something harmless at all */
  readonly told: boolean;
}

/** The two tables by family, as lines of text; below them, one by one, what was missed and what was a false alarm. */
export function reportOf(faults: readonly Outcome<Fault>[], harmless: readonly Outcome<Harmless>[]): string {
  return [
    ...table('Mistakes', ['caught', 'missed'], faults),
    '',
    ...table('Harmless edits', ['false alarms', 'silent'], harmless),
    ...listed(
      'Missed',
      faults.filter(({ told }) => !told).map(({ row }) => `${row.name} (${row.family}): ${row.missed ?? 'not marked'}`),
    ),
    ...listed(
      'Caught, and still marked as missed',
      faults
        .filter(({ row, told }) => told && row.missed !== undefined)
        .map(({ row }) => `${row.name} (${row.family})`),
    ),
    ...listed(
      'False alarms',
      harmless.filter(({ told }) => told).map(({ row }) => `${row.name} (${row.family}): ${row.alarm ?? 'not marked'}`),
    ),
    '',
  ].join('\n');
}

function table(
  title: string,
  [told, silent]: readonly [string, string],
  outcomes: readonly Outcome<Fault | Harmless>[],
): readonly string[] {
  const families = [...new Set(outcomes.map(({ row }) => row.family))];
  const line = (name: string, of: readonly Outcome<Fault | Harmless>[]) => {
    const count = of.filter((outcome) => outcome.told).length;
    return `${name.padEnd(28)}${String(count).padStart(12)}${String(of.length - count).padStart(10)}`;
  };
  return [
    `${title.padEnd(28)}${told.padStart(12)}${silent.padStart(10)}`,
    '-'.repeat(50),
    ...families.map((family) =>
      line(
        family,
        outcomes.filter(({ row }) => row.family === family),
      ),
    ),
    '-'.repeat(50),
    line('all', outcomes),
  ];
}

function listed(title: string, lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : ['', `${title}:`, ...lines.map((line) => `  ${line}`)];
}
