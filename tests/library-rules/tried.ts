/** Texts that break a rule, one for each of its forms, and one that keeps it. */
export type Tried = readonly [breaks: string | readonly string[], keeps: string];

/** Rules of the shipped library, by name, each with what it is tried on. */
export interface Tries {
  /** whether its texts break that rule and nothing else, and keep it and everything else */
  readonly alone: boolean;
  readonly rules: Readonly<Record<string, Tried>>;
}
