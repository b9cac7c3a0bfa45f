/**
 * Teeth in three ways of numbering them. What a protocol writes is ISO 3950: quadrant, then position from the midline. The two others
 * follow from it by rule; they are for showing only, since 18 codes mean a tooth in two systems and never the same one.
 */

/** A tooth as each system writes it. */
export interface ToothNames {
  /** ISO 3950: `11` to `48`, primary `51` to `85` */
  readonly iso: string;
  /** one number a tooth, `1` to `32` from the upper right third molar round to the lower right; primary `A` to `T` */
  readonly universal: string;
  /** position, `1` to `8` or `A` to `E`, with the corner of its quadrant as the viewer sees it: `6┘` is upper right */
  readonly palmer: string;
  /** whose side is the patient's own */
  readonly quadrant: Quadrant;
  readonly primary: boolean;
}

/** Which way of numbering stands first where teeth are shown. */
export const toothNumberings = ['iso', 'universal', 'palmer'] as const;

export type ToothNumbering = (typeof toothNumberings)[number];

export type Quadrant = 'upper right' | 'upper left' | 'lower left' | 'lower right';

/** By the first digit of ISO 3950 less one; the primary quadrants follow in the same order. */
const QUADRANTS: readonly Quadrant[] = ['upper right', 'upper left', 'lower left', 'lower right'];

/** Every tooth, 32 permanent and 20 primary, in the order of ISO 3950. */
export const teeth: readonly ToothNames[] = [1, 2, 3, 4, 5, 6, 7, 8].flatMap((quadrant) =>
  Array.from({ length: quadrant > 4 ? 5 : 8 }, (_, i) => namesOf(quadrant, i + 1)),
);

const byIso = new Map(teeth.map((tooth) => [tooth.iso, tooth]));
const byUniversal = new Map(teeth.map((tooth) => [tooth.universal, tooth]));

/** The tooth that ISO 3950 numbers so; undefined for what is no tooth, a whole quadrant among them. */
export function toothByIso(code: string): ToothNames | undefined {
  return byIso.get(code);
}

/** The tooth that the universal system numbers so. */
export function toothByUniversal(code: string): ToothNames | undefined {
  return byUniversal.get(code);
}

/** @param digit 1 to 8, @param position from the midline, 1 to 8 or 1 to 5 */
function namesOf(digit: number, position: number): ToothNames {
  const primary = digit > 4;
  const at = (digit - 1) % 4;
  // Counted from the upper right round to the lower right: outward in the quadrants that are counted toward the midline.
  const size = primary ? 5 : 8;
  const count = at * size + (at % 2 === 0 ? size + 1 - position : position);
  const quadrant = QUADRANTS[at] ?? 'upper right';
  return {
    iso: `${digit}${position}`,
    universal: primary ? letter(count) : String(count),
    palmer: cornered(primary ? letter(position) : String(position), quadrant),
    quadrant,
    primary,
  };
}

/** 1 is A. */
function letter(count: number): string {
  return String.fromCharCode('A'.charCodeAt(0) + count - 1);
}

/** The corner stands on the side of the midline and of the other jaw. */
function cornered(position: string, quadrant: Quadrant): string {
  switch (quadrant) {
    case 'upper right':
      return `${position}┘`;
    case 'upper left':
      return `└${position}`;
    case 'lower left':
      return `┌${position}`;
    case 'lower right':
      return `${position}┐`;
    default:
      return quadrant satisfies never;
  }
}
