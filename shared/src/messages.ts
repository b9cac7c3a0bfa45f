import * as z from 'zod';

/**
 * What server and client say to each other beyond the language server protocol. Each side validates what it receives.
 * A request has `method`, `params` and `result`; a notification has `method` and `params`.
 */

/** What can be looked at beside the text. */
export const previewView = z.enum(['checklist', 'timeline', 'tray', 'problems']);

/** A protocol or a case that a document declares. */
export const previewSubject = z.object({
  name: z.string(),
  title: z.string(),
  /** its lines, counted from 1 */
  from: z.int().min(1),
  to: z.int().min(1),
});

/** Client asks for a page about a protocol, made from the text as it stands in the editor. */
export const previewRequest = {
  method: 'curette/preview',
  params: z.object({
    /** The document that declares the protocol, or the case. */
    uri: z.string(),
    view: previewView,
    /** Names of what was chosen, of which a case goes first; absent: the first that the document declares. */
    protocol: z.string().optional(),
    case: z.string().optional(),
    /** The cursor's line, counted from 1: what is declared around it goes before what was chosen. */
    line: z.int().min(1).optional(),
  }),
  result: z.object({
    /** A whole page without scripts, every text of the protocol escaped. Parts with `data-line` stand on that line of the text. */
    html: z.string(),
    title: z.string(),
    /** What is shown; null when the document declares nothing to show, and the page says so. */
    protocol: z.string().nullable(),
    case: z.string().nullable(),
    protocols: z.array(previewSubject),
    cases: z.array(previewSubject),
    /** The document whose lines the parts stand on; null: it cannot be opened. */
    declaredIn: z.string().nullable(),
    /** Other documents that parts stand in, by the name in their `data-file`. */
    files: z.record(z.string(), z.string()),
    /** Version of the document that the page was made from, as the editor counts it. */
    version: z.int(),
  }),
} as const;

/** Client asks which cases of a protocol there are, in whatever file of the workspace. */
export const casesRequest = {
  method: 'curette/cases',
  params: z.object({
    /** The document that declares the protocol. */
    uri: z.string(),
    protocol: z.string(),
  }),
  result: z.object({
    cases: z.array(z.object({ uri: z.string(), name: z.string(), title: z.string() })),
  }),
} as const;

/** Server tells that what is shown of a document may read differently now. */
export const previewChangedNotification = {
  method: 'curette/previewChanged',
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

/** Client asks for which kinds of operation a new protocol can be begun. */
export const operationsRequest = {
  method: 'curette/operations',
  params: z.object({}),
  result: z.object({
    operations: z.array(z.object({ name: z.string(), title: z.string(), about: z.string() })),
  }),
} as const;

/** Client asks what can be chosen for one of them. */
export const operationChoicesRequest = {
  method: 'curette/operationChoices',
  params: z.object({ operation: z.string() }),
  result: z.object({
    visits: z.array(
      z.object({
        name: z.string(),
        title: z.string(),
        /** Whether what remains without it is sound. */
        optional: z.boolean(),
      }),
    ),
    materials: z.array(
      z.object({
        /** what the protocol calls it */
        name: z.string(),
        entry: z.string(),
        title: z.string(),
        kind: z.string(),
        /** What may take its place, each tried by itself. */
        others: z.array(z.object({ entry: z.string(), title: z.string() })),
      }),
    ),
  }),
} as const;

/** Client asks for the text of a new protocol. */
export const newProtocolRequest = {
  method: 'curette/newProtocol',
  params: z.object({
    operation: z.string(),
    title: z.string().trim().min(1).max(200),
    /** names of the visits to have; those that it cannot do without are had in any case */
    visits: z.array(z.string()),
    /** by the protocol's name of a material, the entry that takes its place */
    materials: z.record(z.string(), z.string()),
  }),
  result: z.object({
    text: z.string(),
    /** where its title stands, offsets */
    titleAt: z.object({ start: z.int(), end: z.int() }),
    /** sentences about what was chosen and would not have been sound: it was left as the library has it */
    kept: z.array(z.string()),
  }),
} as const;

/** A file that the server cannot read by itself, and what stands in it. */
export const heldFile = z.object({
  uri: z.string(),
  content: z.discriminatedUnion('type', [
    z.object({ type: z.literal('text'), text: z.string() }),
    /** it is there no more */
    z.object({ type: z.literal('absent') }),
    z.object({ type: z.literal('unreadable') }),
    z.object({ type: z.literal('too large') }),
    z.object({ type: z.literal('not text') }),
  ]),
});

/** Client tells what stands in files of the workspace that are on no disk of the server's: those that came, changed or went. */
export const heldFilesNotification = {
  method: 'curette/files',
  params: z.object({ files: z.array(heldFile) }),
} as const;

/** What the client tells the server at the start, as `initializationOptions`; other editors send nothing. */
export const initializationOptions = z.object({
  /**
   * Where the editor shows a problem's page: a problem links to this with `{code}` replaced by its code.
   * Absent: problems carry no link.
   */
  problemPage: z.string().optional(),
  /** False: only files that are open are checked. An editor that can be asked for its settings says it there, as `curette.checkWorkspace`. */
  checkWorkspace: z.boolean().optional(),
  /** Files that the server cannot read by itself, as they are at the start. */
  files: z.array(heldFile).optional(),
});

export type PreviewView = z.infer<typeof previewView>;
export type PreviewSubject = z.infer<typeof previewSubject>;
export type PreviewParams = z.infer<typeof previewRequest.params>;
export type PreviewResult = z.infer<typeof previewRequest.result>;
export type CasesResult = z.infer<typeof casesRequest.result>;
export type PreviewChangedParams = z.infer<typeof previewChangedNotification.params>;
export type LibraryTextParams = z.infer<typeof libraryTextRequest.params>;
export type LibraryTextResult = z.infer<typeof libraryTextRequest.result>;
export type ProblemPageParams = z.infer<typeof problemPageRequest.params>;
export type ProblemPageResult = z.infer<typeof problemPageRequest.result>;
export type OperationChoices = z.infer<typeof operationChoicesRequest.result>;
export type NewProtocolParams = z.infer<typeof newProtocolRequest.params>;
export type NewProtocolResult = z.infer<typeof newProtocolRequest.result>;
export type HeldFile = z.infer<typeof heldFile>;
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
