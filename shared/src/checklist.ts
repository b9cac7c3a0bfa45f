import * as z from 'zod';

/**
 * The checklist of a protocol, as data: what a sheet, a page or a program that runs it is made from. All texts are as written in
 * the protocol, unescaped; quantities and times are in words. A `source` is the number of one of `sources`, from 1.
 */

const source = z.int().min(1).nullable();

/** Where it stands in the file that declares the protocol, counted from 1; null: in another file, as the steps of a routine may. */
const line = z.int().min(1).nullable();

/** A limit, a condition or a rule that a step has to keep. */
export const checklistLimit = z.object({
  type: z.enum(['clock', 'condition', 'rule']),
  text: z.string(),
  why: z.string().nullable(),
  source,
});

/** Something whose time runs from this step on. */
export const checklistClock = z.object({
  /** a thing and the state it is in from here on */
  text: z.string(),
  /** "12–50 min" */
  limit: z.string(),
  /** the step that asks how long it has been */
  until: z.string(),
});

/** What a thing has to be by then: out, counted, closed. */
export const checklistDue = z.object({
  thing: z.string(),
  /** any one of them */
  states: z.array(z.string()),
  /** "before sign out", "by the end of the visit", "by the end of the protocol" */
  by: z.string(),
  why: z.string().nullable(),
  source,
});

/** What most lines say of themselves; spelled out where a line holds lines again, which a spread does not let be inferred. */
const said = {
  who: z.array(z.string()),
  /** "10–22 min" */
  takes: z.string().nullable(),
  because: z.string().nullable(),
  source,
};

export const checklistStep = z.object({
  type: z.literal('step'),
  line,
  text: z.string(),
  /** instruments */
  with: z.array(z.string()),
  who: said.who,
  takes: said.takes,
  because: said.because,
  source,
  limits: z.array(checklistLimit),
  clocks: z.array(checklistClock),
  /** what a routine consists of */
  get steps(): z.ZodArray<typeof checklistItem> {
    return z.array(checklistItem);
  },
});

export const checklistPause = z.object({
  type: z.literal('pause'),
  line,
  name: z.string(),
  label: z.string(),
  /** when it is held */
  hint: z.string().nullable(),
  items: z.array(z.string()),
  ...said,
  due: z.array(checklistDue),
});

export const checklistWait = z.object({
  type: z.literal('wait'),
  line,
  text: z.string(),
  because: z.string().nullable(),
  source,
});

export const checklistVerify = z.object({
  type: z.literal('verify'),
  line,
  text: z.string(),
  /** "9–12 mm" */
  within: z.string().nullable(),
  who: said.who,
  takes: said.takes,
  because: said.because,
  source,
  /** what to do when it is not so */
  otherwise: z.string().nullable(),
  get steps(): z.ZodArray<typeof checklistItem> {
    return z.array(checklistItem);
  },
});

export const checklistBranch = z.object({
  line,
  label: z.string(),
  who: z.array(z.string()),
  get steps(): z.ZodArray<typeof checklistItem> {
    return z.array(checklistItem);
  },
});

export const checklistDecide = z.object({
  type: z.literal('decide'),
  line,
  /** what is found out */
  text: z.string(),
  /** how it is found out */
  how: z.string().nullable(),
  ...said,
  options: z.array(checklistBranch),
});

export const checklistTogether = z.object({ type: z.literal('together'), line, lanes: z.array(checklistBranch) });

export const checklistRepeat = z.object({
  type: z.literal('repeat'),
  line,
  until: z.string().nullable(),
  atMost: z.int().nullable(),
  get steps(): z.ZodArray<typeof checklistItem> {
    return z.array(checklistItem);
  },
});

/** A contingency, off the main path. */
export const checklistComplication = z.object({
  type: z.literal('complication'),
  line,
  label: z.string(),
  get steps(): z.ZodArray<typeof checklistItem> {
    return z.array(checklistItem);
  },
});

export const checklistInstruct = z.object({
  type: z.literal('instruct'),
  line,
  text: z.string(),
  home: z.boolean(),
  ...said,
});

export const checklistRecord = z.object({
  type: z.literal('record'),
  line,
  what: z.string(),
  text: z.string().nullable(),
  ...said,
});

export const checklistNote = z.object({ type: z.literal('note'), line, text: z.string() });

export const checklistStop = z.object({ type: z.literal('stop'), line, text: z.string() });

export const checklistItem = z.discriminatedUnion('type', [
  checklistStep,
  checklistPause,
  checklistWait,
  checklistVerify,
  checklistDecide,
  checklistTogether,
  checklistRepeat,
  checklistComplication,
  checklistInstruct,
  checklistRecord,
  checklistNote,
  checklistStop,
]);

export const checklistVisit = z.object({
  type: z.literal('visit'),
  line,
  name: z.string(),
  label: z.string(),
  /** the stated times of its steps, added up: "61–112 min"; null when none is stated */
  time: z.string().nullable(),
  /** when it can be, of a case that says when it begins: "2027-03-08 to 2027-03-11, 4 open days" */
  dates: z.string().nullable(),
  steps: z.array(checklistItem),
  /** what has to be so at its end and no pause asks for */
  due: z.array(checklistDue),
  /** what stays for a later visit */
  carried: z.array(checklistDue),
});

/** The time between two visits. */
export const checklistInterval = z.object({
  type: z.literal('interval'),
  line,
  text: z.string(),
  because: z.string().nullable(),
  source,
});

/** Somebody for whom this protocol is not, or not as it is. */
export const checklistWarning = z.object({ line, text: z.string(), because: z.string().nullable(), source });

export const checklistThing = z.object({
  line,
  /** as the steps call it */
  name: z.string(),
  /** what it is; null when its name says it all */
  is: z.string().nullable(),
  amount: z.string().nullable(),
  facts: z.array(z.object({ name: z.string(), value: z.string(), source })),
});

export const checklistProblem = z.object({
  severity: z.enum(['error', 'warning', 'advice']),
  title: z.string(),
  message: z.string(),
  file: z.string(),
  line: z.int().min(1).nullable(),
});

export const checklist = z.object({
  name: z.string(),
  /** that declares it */
  file: z.string(),
  title: z.string(),
  summary: z.string().nullable(),
  version: z.string().nullable(),
  /** "draft", "in review", "approved", "retired", or whatever is written */
  status: z.string().nullable(),
  owner: z.string().nullable(),
  review: z.string().nullable(),
  reviewed: z.string().nullable(),
  approved: z.string().nullable(),
  follows: z.string().nullable(),
  /** false when the checker found an error in it, or in a file it uses */
  fit: z.boolean(),
  errors: z.int().min(0),
  problems: z.array(checklistProblem),
  team: z.array(z.string()),
  given: z.array(checklistThing),
  materials: z.array(checklistThing),
  instruments: z.array(checklistThing),
  exclusions: z.array(checklistWarning),
  cautions: z.array(checklistWarning),
  course: z.array(z.discriminatedUnion('type', [checklistVisit, checklistInterval])),
  /** number n stands at n - 1 */
  sources: z.array(z.object({ name: z.string(), citation: z.string() })),
});

export type Checklist = z.infer<typeof checklist>;
export type ChecklistItem = z.infer<typeof checklistItem>;
export type ChecklistVisit = z.infer<typeof checklistVisit>;
export type ChecklistInterval = z.infer<typeof checklistInterval>;
export type ChecklistLimit = z.infer<typeof checklistLimit>;
export type ChecklistClock = z.infer<typeof checklistClock>;
export type ChecklistDue = z.infer<typeof checklistDue>;
export type ChecklistThing = z.infer<typeof checklistThing>;
export type ChecklistWarning = z.infer<typeof checklistWarning>;
export type ChecklistProblem = z.infer<typeof checklistProblem>;
