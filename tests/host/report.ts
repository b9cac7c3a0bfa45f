import * as z from 'zod';

/** A line of the file that the tests inside the editor write: one JSON value a line, in the order of events. */
export const report = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('began'), name: z.string() }),
  z.object({ kind: z.literal('passed'), name: z.string(), duration: z.number() }),
  z.object({ kind: z.literal('failed'), name: z.string(), error: z.string() }),
  z.object({ kind: z.literal('end') }),
]);

export type Report = z.infer<typeof report>;
