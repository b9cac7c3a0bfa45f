import * as z from 'zod';

/** What `curette due --format json` prints, for programs to read. A change that breaks a reader raises `version`. Dates are ISO 8601. */

export const dueProtocol = z.object({
  path: z.string(),
  name: z.string(),
  title: z.string(),
  version: z.string().nullable(),
  status: z.string().nullable(),
  owner: z.string().nullable(),
  /** the day that is counted from, and what happened on it */
  last: z.string(),
  counted: z.enum(['reviewed', 'approved']),
  /** the last day on which it is not overdue */
  due: z.string(),
  overdue: z.boolean(),
});

export const dueOutput = z.object({
  version: z.literal(1),
  /** the day that was asked about */
  on: z.string(),
  /** oldest first: those that are overdue, then those that fall due within the days asked for */
  protocols: z.array(dueProtocol),
  /** protocols that somebody works by and that say no day to count from, or not how often */
  undated: z.array(z.object({ path: z.string(), name: z.string(), title: z.string() })),
});

export type DueProtocol = z.infer<typeof dueProtocol>;
export type DueOutput = z.infer<typeof dueOutput>;
