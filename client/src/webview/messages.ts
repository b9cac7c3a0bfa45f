import type { PreviewSubject, PreviewView } from '@curette/shared';
import * as z from 'zod';

/** A case to choose: its key is the file and the name. */
export interface PreviewCase {
  readonly key: string;
  readonly title: string;
}

/** What the extension sends to the preview's page, which trusts it. */
export type ToPage =
  | {
      readonly kind: 'page';
      /** a whole page without scripts */
      readonly html: string;
      readonly view: PreviewView;
      readonly protocol: string | null;
      /** one of `cases`, by its key; null: none */
      readonly case: string | null;
      readonly protocols: readonly PreviewSubject[];
      /** of the protocol shown, in whatever file */
      readonly cases: readonly PreviewCase[];
      /** whether it goes with the editor to other files */
      readonly follows: boolean;
      /** what the editor keeps of it over a restart */
      readonly state: PreviewState;
    }
  /** the cursor is on this line of the file that declares what is shown, counted from 1 */
  | { readonly kind: 'cursor'; readonly line: number }
  | { readonly kind: 'failure'; readonly text: string };

const view = z.enum(['checklist', 'timeline', 'tray', 'problems']);

/** What the preview's page sends to the extension, which checks it. */
export const fromPage = z.discriminatedUnion('kind', [
  /** its script listens now */
  z.object({ kind: z.literal('ready') }),
  z.object({ kind: z.literal('view'), view }),
  z.object({ kind: z.literal('protocol'), name: z.string() }),
  /** null: no case, the protocol as it is for everybody */
  z.object({ kind: z.literal('case'), key: z.string().nullable() }),
  z.object({ kind: z.literal('follow'), follows: z.boolean() }),
  /** somebody wants to see where it stands; `file` is the name of another than the one that declares what is shown */
  z.object({ kind: z.literal('open'), line: z.int().min(1), file: z.string().optional() }),
  z.object({ kind: z.literal('print') }),
  z.object({ kind: z.literal('save') }),
]);

export type FromPage = z.infer<typeof fromPage>;

/** What a panel is about; it is kept over a restart of the editor. */
export const previewState = z.object({
  uri: z.string(),
  view,
  protocol: z.string().optional(),
  case: z.string().optional(),
  follows: z.boolean(),
});

export type PreviewState = z.infer<typeof previewState>;
