/** A text with places in it that are still to be filled in. */
export type Form = readonly FormPart[];

export type FormPart = string | Gap;

/** A place to be filled in. */
export interface Gap {
  /** counted from 1 in reading order; gaps of one number are filled in together */
  readonly stop: number;
  /** what stands there until then */
  readonly text: string;
  /** what may stand there, where only that may */
  readonly choices: readonly string[];
}

/**
 * Reads `visit [name] "[Title]" {`: gaps in square brackets. Those of one text are one gap, empty ones each their own; `[draft|approved]`
 * lets choose.
 */
export function formOf(text: string): Form {
  const stops = new Map<string, number>();
  let last = 0;
  return text.split(/(\[[^\]]*\])/).flatMap((part): FormPart[] => {
    if (part === '') return [];
    if (!part.startsWith('[')) return [part];
    const inside = part.slice(1, -1);
    const known = inside === '' ? undefined : stops.get(inside);
    if (known === undefined) last += 1;
    const stop = known ?? last;
    stops.set(inside, stop);
    const choices = inside.split('|');
    return [{ stop, text: choices[0] ?? '', choices: choices.length > 1 ? choices : [] }];
  });
}

/** A gap for a form put together by hand. */
export function gap(stop: number, choices: readonly string[]): Gap {
  return { stop, text: choices[0] ?? '', choices: choices.length > 1 ? choices : [] };
}

/** The form as it reads before anything is filled in. */
export function plainForm(form: Form): string {
  return form.map((part) => (typeof part === 'string' ? part : part.text)).join('');
}
