import * as z from 'zod';

/** As ISO 8601 counts them: Monday is the first. */
export const WEEKDAYS = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'] as const;

export type Weekday = (typeof WEEKDAYS)[number];

/** Days from one date to another, both included; ISO 8601 dates. */
export interface Period {
  readonly from: string;
  readonly to: string;
}

/** What a workspace says of the place where its protocols are carried out. */
export interface Settings {
  /** days on which there are no visits */
  readonly closed: {
    readonly weekdays: readonly Weekday[];
    readonly periods: readonly Period[];
  };
}

/** Where nothing is said, every day is open. */
export const NO_SETTINGS: Settings = { closed: { weekdays: [], periods: [] } };

/** What is wrong with a value, beyond its form: `params.fault` of the issue. */
export type SettingsFault = 'no such date' | 'reversed' | 'always closed';

const day = z.iso.date();

const weekdays = z
  .array(z.enum(WEEKDAYS))
  .refine((days) => new Set(days).size < WEEKDAYS.length, {
    params: { fault: 'always closed' satisfies SettingsFault },
  })
  .meta({
    title: 'Closed weekdays',
    description: 'Weekdays on which there are no visits.',
    uniqueItems: true,
    maxItems: WEEKDAYS.length - 1,
  });

const dates = z
  .array(
    z
      .string()
      .meta({
        description: 'A date, 2027-01-01, or the days from one date to another, both included, 2027-12-24/2027-12-31.',
        pattern: '^\\d{4}-\\d{2}-\\d{2}(/\\d{4}-\\d{2}-\\d{2})?$',
      })
      .superRefine((text, context) => {
        const fault = faultOfPeriod(text);
        if (fault) context.addIssue({ code: 'custom', params: { fault }, input: text });
      })
      .transform(periodOf),
  )
  .meta({ title: 'Closed dates', description: 'Dates on which there are no visits: holidays, holidays in a row.' });

/** The file `curette.json`: what may be in it, and what it comes to. */
export const settingsFile = z
  .strictObject({
    $schema: z.string().meta({ description: 'The schema an editor checks this file with.' }).optional(),
    closed: z
      .strictObject({ weekdays: weekdays.optional(), dates: dates.optional() })
      .meta({ title: 'Closed days', description: 'Days on which there are no visits.' })
      .optional(),
  })
  .meta({
    title: 'Curette workspace',
    description: 'What the protocols of this folder have to know of the place where they are carried out.',
  })
  .transform(
    ({ closed }): Settings => ({ closed: { weekdays: closed?.weekdays ?? [], periods: closed?.dates ?? [] } }),
  );

/** The two ends of `2027-12-24/2027-12-31` as written; of a single date twice that. */
export function periodOf(text: string): Period {
  const [from = '', to = from] = text.split('/');
  return { from, to };
}

function faultOfPeriod(text: string): SettingsFault | undefined {
  const { from, to } = periodOf(text);
  if (text.split('/').length > 2 || ![from, to].every((end) => day.safeParse(end).success)) return 'no such date';
  return from > to ? 'reversed' : undefined;
}
