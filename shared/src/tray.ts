import * as z from 'zod';

/**
 * What has to be laid out for each visit of a protocol, as data. All texts are as written in the protocol, unescaped; quantities are
 * in words.
 */

/** Where it stands in the file that declares the protocol, counted from 1; null: in another file. */
const line = z.int().min(1).nullable();

export const trayThing = z.object({
  /** where it is listed */
  line,
  /** as the checklist calls it */
  name: z.string(),
  /** what it is; null when its name says it all */
  is: z.string().nullable(),
  /** what there is of it for the whole protocol, as written */
  listed: z.string().nullable(),
  /** what the steps of this visit use up of it, from the path that uses least to the one that uses most: "1.7–3.4 mL" */
  used: z.string().nullable(),
  /** the step that needs it first */
  first: z.object({ line, text: z.string() }),
  /** in what circumstances it is needed, each with those around it, where not on every path: "root is broken" */
  only: z.array(z.string()),
});

export const trayVisit = z.object({
  line,
  name: z.string(),
  label: z.string(),
  /** when it can be, of a case that says when it begins */
  dates: z.string().nullable(),
  /** in the order in which they are needed */
  materials: z.array(trayThing),
  instruments: z.array(trayThing),
});

export const tray = z.object({
  name: z.string(),
  /** that declares it */
  file: z.string(),
  title: z.string(),
  version: z.string().nullable(),
  status: z.string().nullable(),
  /** false when the checker found an error in it, or in a file it uses */
  fit: z.boolean(),
  errors: z.int().min(0),
  visits: z.array(trayVisit),
});

export type Tray = z.infer<typeof tray>;
export type TrayVisit = z.infer<typeof trayVisit>;
export type TrayThing = z.infer<typeof trayThing>;
