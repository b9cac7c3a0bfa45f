import * as z from 'zod';

/**
 * When the steps of a protocol can take place, as data: what a drawing, a page or a program is made from. All texts are as written in
 * the protocol, unescaped. Times are seconds since the beginning of the visit, lengths are seconds; `words` say them as a person does.
 */

const seconds = z.number().min(0);

/** Where it stands in the file that declares the protocol, counted from 1; null: in another file. */
const line = z.int().min(1).nullable();

/** When a moment can be. */
export const timelineMoment = z.object({
  earliest: seconds,
  /** null: something before it does not say how long it takes at most */
  latest: seconds.nullable(),
});

export const timelineLength = z.object({
  shortest: seconds,
  /** null: nothing says how long at most */
  longest: seconds.nullable(),
  /** how long it takes most often, if that is said */
  usual: seconds.nullable(),
});

/** An event, or what events stand in. In the order of work, what is inside after what it is inside of. */
export const timelineRow = z.object({
  line,
  type: z.enum(['step', 'pause', 'wait', 'check', 'decide', 'record', 'instruct', 'stop', 'group']),
  /** as on the checklist; with a letter for what stands inside: "9a"; null for what has no number there */
  number: z.string().nullable(),
  depth: z.int().min(0),
  label: z.string(),
  /** what must be so for it to be done, or where it stands, outermost first: "if root is broken", "up to 3 times" */
  within: z.array(z.string()),
  /** roles that do it; empty where nothing says who */
  who: z.array(z.string()),
  /** where nothing says who: roles of which any may */
  may: z.array(z.string()),
  start: timelineMoment,
  end: timelineMoment,
  takes: timelineLength,
  /** whether every second it takes longer makes the longest run longer that it is part of */
  critical: z.boolean(),
  /** seconds it may take longer in that run until it does; null: no matter how long, as far as can be told */
  slack: seconds.nullable(),
  /** seconds it may begin later before a limit that spans it breaks; negative: one can break already; null: none spans it */
  spare: z.number().nullable(),
  words: z.object({
    /** "12–25 min", "from 12 min on" */
    begins: z.string(),
    /** "3–8 min"; null where nothing says it, or it takes no time */
    takes: z.string().nullable(),
  }),
});

/** A time that the protocol asks for, and what the order of work gives it. */
export const timelineClock = z.object({
  /** things and the state whose age is asked for */
  text: z.string(),
  /** the event at whose end the state begins, its number, and when; null: before the visit */
  since: z.object({ label: z.string(), number: z.string().nullable(), at: timelineMoment }).nullable(),
  /** the step that asks */
  until: z.object({ label: z.string(), number: z.string().nullable(), at: timelineMoment }),
  /** what must have been found for it to be this event; null: nothing */
  when: z.string().nullable(),
  allowed: z.object({ shortest: seconds, longest: seconds.nullable() }),
  /** null: the two do not follow one another in a fixed order */
  given: z.object({ shortest: seconds, longest: seconds.nullable() }).nullable(),
  answer: z.enum(['holds', 'can break', 'always breaks', 'not told']),
  words: z.object({
    /** "12–50 min" */
    allowed: z.string(),
    given: z.string().nullable(),
    /** "holds", "can break: too soon", "cannot be told" */
    answer: z.string(),
  }),
});

/** Time in which somebody has nothing to do. */
export const timelineIdle = z.object({
  /** a wait as it is written, or that a lane waits for the others */
  text: z.string(),
  /** the wait's */
  number: z.string().nullable(),
  /** the lane that is over early; null for a wait */
  lane: z.string().nullable(),
  who: z.array(z.string()),
  from: timelineMoment,
  /** when what is waited for is over */
  until: timelineMoment,
  lasts: z.object({ shortest: seconds, longest: seconds.nullable() }),
  words: z.object({ from: z.string(), lasts: z.string() }),
});

/** How long the visit takes when it is played many times. */
export const timelinePlayed = z.object({
  median: seconds,
  p90: seconds,
  samples: z.int().min(1),
  seed: z.int(),
  /** events whose length differs from run to run; of them, those drawn evenly because nothing says what is usual */
  drawn: z.int().min(0),
  evenly: z.int().min(0),
  decisions: z.int().min(0),
});

export const timelineVisit = z.object({
  type: z.literal('visit'),
  line,
  name: z.string(),
  label: z.string(),
  /** how long the chair is occupied */
  chair: z.object({ shortest: seconds, longest: seconds.nullable() }),
  /** "37–104 min"; null when nothing in it takes a stated time */
  time: z.string().nullable(),
  /** null where an event does not say how long it takes at most */
  played: timelinePlayed.nullable(),
  /** whether every event is critical: all work is in series */
  series: z.boolean(),
  /** when it can be, given the day of the first visit; null when none was given */
  dates: z
    .object({
      /** ISO 8601; open days as far as there are any; null: it cannot be told */
      earliest: z.string().nullable(),
      latest: z.string().nullable(),
      /** open days from the earliest to the latest */
      days: z.int().min(0).nullable(),
      /** why it cannot be told, or is not as one would wish */
      note: z.string().nullable(),
    })
    .nullable(),
  rows: z.array(timelineRow),
  clocks: z.array(timelineClock),
  idle: z.array(timelineIdle),
});

/** The time between two visits, as written. */
export const timelineGap = z.object({ type: z.literal('gap'), line, text: z.string(), because: z.string().nullable() });

export const timeline = z.object({
  name: z.string(),
  /** that declares it */
  file: z.string(),
  title: z.string(),
  version: z.string().nullable(),
  status: z.string().nullable(),
  /** false when the checker found an error in it, or in a file it uses */
  fit: z.boolean(),
  errors: z.int().min(0),
  /** the day of the first visit as it was given; null when none was */
  first: z.string().nullable(),
  /** roles of the team, in the order of the protocol */
  team: z.array(z.string()),
  course: z.array(z.discriminatedUnion('type', [timelineVisit, timelineGap])),
});

export type Timeline = z.infer<typeof timeline>;
export type TimelineVisit = z.infer<typeof timelineVisit>;
export type TimelineGap = z.infer<typeof timelineGap>;
export type TimelineRow = z.infer<typeof timelineRow>;
export type TimelineClock = z.infer<typeof timelineClock>;
export type TimelineIdle = z.infer<typeof timelineIdle>;
export type TimelineMoment = z.infer<typeof timelineMoment>;
