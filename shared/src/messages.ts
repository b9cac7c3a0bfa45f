import * as z from 'zod';

/**
 * What server and client say to each other beyond the language server protocol. Each side validates what it receives.
 * A request has `method`, `params` and `result`; a notification has `method` and `params`.
 */

/** Client asks for the checklist of a protocol as one HTML page, made from the text as it stands in the editor. */
export const checklistRequest = {
  method: 'curette/checklist',
  params: z.object({
    /** The document that declares the protocol. */
    uri: z.string(),
    /** Name of the protocol; absent: the first one of the document. */
    protocol: z.string().optional(),
  }),
  result: z.object({
    /** A whole page without scripts, every text of the protocol escaped. */
    html: z.string(),
    /** Name of the protocol shown; null when the document declares none, and the page says so. */
    protocol: z.string().nullable(),
    /** Version of the document that the page was made from, as the editor counts it. */
    version: z.int(),
  }),
} as const;

/** Server tells that a document's checklist may read differently now. */
export const checklistChangedNotification = {
  method: 'curette/checklistChanged',
  params: z.object({ uri: z.string() }),
} as const;

/** Client asks for the text of a file of the shipped library, which is on no disk. */
export const libraryTextRequest = {
  method: 'curette/libraryText',
  params: z.object({
    /** As `libraryUri` makes it. */
    uri: z.string(),
  }),
  result: z.object({
    /** Null when the library has no such file. */
    text: z.string().nullable(),
  }),
} as const;

/** Client asks for the page about a kind of problem. */
export const problemPageRequest = {
  method: 'curette/problemPage',
  params: z.object({ code: z.string() }),
  result: z.object({
    /** Null when there is no such code. */
    markdown: z.string().nullable(),
  }),
} as const;

/** What the client tells the server at the start, as `initializationOptions`; other editors send nothing. */
export const initializationOptions = z.object({
  /**
   * Where the editor shows a problem's page: a problem links to this with `{code}` replaced by its code.
   * Absent: problems carry no link.
   */
  problemPage: z.string().optional(),
});

export type ChecklistParams = z.infer<typeof checklistRequest.params>;
export type ChecklistResult = z.infer<typeof checklistRequest.result>;
export type ChecklistChangedParams = z.infer<typeof checklistChangedNotification.params>;
export type LibraryTextParams = z.infer<typeof libraryTextRequest.params>;
export type LibraryTextResult = z.infer<typeof libraryTextRequest.result>;
export type ProblemPageParams = z.infer<typeof problemPageRequest.params>;
export type ProblemPageResult = z.infer<typeof problemPageRequest.result>;
export type InitializationOptions = z.infer<typeof initializationOptions>;

/** Scheme of the read-only documents that show the shipped library. */
export const libraryScheme = 'curette-library';

/**
 * Address of a file of the shipped library.
 * @param path as `use` names it, with the file ending: `std/oral.curette`
 */
export function libraryUri(path: string): string {
  return `${libraryScheme}:/${path}`;
}

/** The library's path of such an address (`std/oral.curette`); undefined for any other address. */
export function libraryPath(uri: string): string | undefined {
  return uri.startsWith(`${libraryScheme}:/`) ? uri.slice(libraryScheme.length + 2) : undefined;
}
