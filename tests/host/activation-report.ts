import * as z from 'zod';

/** What `activation.ts` finds inside the editor. Times in ms, from before the first protocol is opened. */
export const activation = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('seen'),
    /** Whether the extension ran while nothing but a text file was open. */
    activeWithText: z.boolean(),
    /** The folder that the extension was loaded from. */
    path: z.string(),
    toActive: z.number(),
    toProblems: z.number(),
    /** Codes of the draft's problems. */
    codes: z.array(z.string()),
  }),
  z.object({ kind: z.literal('failed'), why: z.string() }),
]);

export type Activation = z.infer<typeof activation>;
