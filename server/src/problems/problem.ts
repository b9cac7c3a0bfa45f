import type { Span } from '@curette/grammar';

/** Names a file: its path from the workspace's root, or `library:std/NAME.curette`. */
export type FileId = string;

/** `error`: unfit for use; `warning`: can go wrong, or is very likely an oversight; `advice`: worth knowing. */
export type Severity = 'error' | 'warning' | 'advice';

/** A stretch of a file, told by its statement, so that it stays true while other lines move. */
export interface Place {
  readonly file: FileId;
  /** the statement's `id`; 0 is the file itself, and the span then counts from the file's start */
  readonly statement: number;
  /** counted from the statement's start */
  readonly span: Span;
}

export interface Related {
  readonly place: Place;
  readonly message: string;
}

/** A change of text, in terms of statements: what it means in offsets is worked out where it is applied. */
export type Edit =
  | { readonly type: 'replace'; readonly place: Place; readonly text: string }
  /** whole lines before or after a statement, indented as it is */
  | {
      readonly type: 'insert';
      readonly where: 'before' | 'after';
      readonly file: FileId;
      readonly statement: number;
      readonly lines: readonly string[];
    }
  /** whole lines (in a list: items) at the end of the statement's body, before its closing brace */
  | { readonly type: 'append'; readonly file: FileId; readonly statement: number; readonly lines: readonly string[] }
  /** the statement and its line */
  | { readonly type: 'remove'; readonly file: FileId; readonly statement: number }
  | { readonly type: 'add use'; readonly file: FileId; readonly path: string };

/** A mend the reader can take with one press. */
export interface Mend {
  readonly title: string;
  readonly edits: readonly Edit[];
  /** what is written is read as this already: it changes how the line looks, and nothing that it means */
  readonly spelling?: true;
}

/** What a limit or a rule rests on, ready to be shown. */
export interface SourceNote {
  readonly name: string;
  /** one line: title, by, year, identifier; for common practice says that there is no published source */
  readonly citation: string;
}

/** What the checker tells. One file in this folder words each kind of problem. */
export interface Problem {
  readonly code: string;
  /** the library's or institution's rule that was broken, if one was */
  readonly rule: string | undefined;
  readonly severity: Severity;
  /** two to five words */
  readonly title: string;
  readonly place: Place;
  /** a few words to stand under the underlined ones */
  readonly label: string | undefined;
  /** one or two sentences: what is so, since when, and what the limit is */
  readonly message: string;
  readonly why: string | undefined;
  readonly source: SourceNote | undefined;
  readonly related: readonly Related[];
  readonly mends: readonly Mend[];
  /** mends that help in most cases: offered once trying them out has shown that they do here */
  readonly tries: readonly Mend[];
}

/** The words of one problem; what is left out falls back to the kind's own. */
export interface Wording {
  readonly message: string;
  readonly title?: string | undefined;
  readonly severity?: Severity | undefined;
  readonly rule?: string | undefined;
  readonly label?: string | undefined;
  readonly why?: string | undefined;
  readonly source?: SourceNote | undefined;
  readonly related?: readonly Related[] | undefined;
  readonly mends?: readonly Mend[] | undefined;
  readonly tries?: readonly Mend[] | undefined;
}

/** One kind of problem: its page, its two examples, and how it is worded from what a pass found out. */
export interface ProblemKind<Data> {
  readonly code: string;
  readonly severity: Severity;
  readonly title: string;
  /** markdown: what it means, when it is raised, what to do */
  readonly page: string;
  /** a file in the language, with `// ^^^ code` marks, that shows the problem */
  readonly triggers: string;
  /** the nearest file that does not */
  readonly silent: string;
  readonly words: (data: Data) => Wording;
}

export type AnyProblemKind = Omit<ProblemKind<never>, 'words'>;

/** Takes problems as passes find them. */
export type Report = (problem: Problem) => void;

/** A problem of a kind at a place. */
export function problemAt<Data>(kind: ProblemKind<Data>, place: Place, data: Data): Problem {
  const words = kind.words(data);
  return {
    code: kind.code,
    rule: words.rule,
    severity: words.severity ?? kind.severity,
    title: words.title ?? kind.title,
    place,
    label: words.label,
    message: words.message,
    why: words.why,
    source: words.source,
    related: words.related ?? [],
    mends: words.mends ?? [],
    tries: words.tries ?? [],
  };
}

/** Gives a problem kind its data type by inference. */
export function problemKind<Data>(kind: ProblemKind<Data>): ProblemKind<Data> {
  return kind;
}
