/** The words of the two tables: single edits of the sound protocols, those that hurt and those that do not. */

/** `find` stands in the file exactly once. */
export interface Replacement {
  readonly find: string;
  readonly replace: string;
}

/** One edit of a file. */
export interface Edit extends Replacement {
  readonly name: string;
  /** in one sentence: what it means for the patient, or why it is nothing */
  readonly meaning: string;
  /** path from the demo workspace */
  readonly file: string;
  /** what has to change with it for the edit to be the one meant: what a step uses is on the tray, too */
  readonly also?: readonly Replacement[];
}

/** A mistake that has to be told. */
export interface Fault extends Edit {
  readonly family: FaultFamily;
  /** code of the problem, or name of the rule, that tells it; left out only where nothing of the kind is there yet */
  readonly problem?: string;
  /**
   * Words that stand exactly once in the edited file; the problem stands on their line. Of several lines the last one is
   * meant, or the one that has `»` before it.
   */
  readonly on: string;
  /** the file that the problem stands in, when it is not the edited one */
  readonly in?: string;
  /** why it is not told today; the test fails as soon as it is */
  readonly missed?: string;
}

/** A change of wording, order or amount that hurts nobody, and has to stay silent. */
export interface Harmless extends Edit {
  readonly family: HarmlessFamily;
  /** why it is told nevertheless today; the test fails as soon as it no longer is */
  readonly alarm?: string;
}

export const faultFamilies = [
  'soak and drying',
  'wrong place',
  'left behind',
  'counts and pauses',
  'order',
  'numbness',
  'time',
  'calendar',
  'dose',
  'unit slip',
  'size',
  'torque and speed',
  'decision',
  'role',
  'tray',
  'contraindication',
  'closure and stitches',
  'specimen',
  'image',
  'case',
  'wording',
] as const;
export type FaultFamily = (typeof faultFamilies)[number];

export const harmlessFamilies = [
  'wording',
  'order that does not matter',
  'equivalent unit',
  'renamed throughout',
  'stricter',
  'more of the same',
  'layout',
  'another choice',
] as const;
export type HarmlessFamily = (typeof harmlessFamilies)[number];

export const graftedSocket = 'protocols/grafted_socket.curette';
export const stagedImplant = 'protocols/staged_implant.curette';
export const skinExcision = 'protocols/skin_excision.curette';
export const policy = 'policy.curette';
export const cases = 'cases/grafted_sockets.curette';
