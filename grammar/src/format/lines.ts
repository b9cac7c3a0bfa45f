/** A file as the formatter sees it: lines and blocks, without any white space. */
import type { Container } from '../tree.ts';

/** A word of a head, and how it stands to the word before it. */
export interface Word {
  readonly text: string;
  /** a space before it */
  readonly spaced: boolean;
  /** how gladly a line that is too long is broken before it; 0 is never */
  readonly breaks: 0 | 1 | 2 | 3 | 4;
  /** on one line with the word before it, it would be read otherwise */
  readonly parted: boolean;
  /** comments between the word before it and itself */
  readonly comments: readonly Comment[];
}

/** `// …` or `/// …`, without white space at its end. */
export interface Comment {
  readonly text: string;
  /** it stands on a line of its own */
  readonly own: boolean;
}

/** A comment, or a line of a doc comment, on a line of its own. */
export interface CommentLine {
  readonly type: 'comment';
  readonly text: string;
  /** a blank line stands above it */
  readonly blank: boolean;
}

export interface StatementLine {
  readonly type: 'statement';
  readonly words: readonly Word[];
  /** how many of the words are the left column, where the line may be part of a table; 0 where it may not */
  readonly key: number;
  readonly blank: boolean;
  /** it stood on the line of the statement before it */
  readonly joined: boolean;
  readonly block: Block | undefined;
  /** comments between the head and the `{` that can stand nowhere else */
  readonly beforeBlock: readonly Comment[];
  /** a comment at the end of its last line */
  readonly trailing: string | undefined;
}

export type Line = CommentLine | StatementLine;

export interface Block {
  readonly container: Container;
  readonly lines: readonly Line[];
  /** a comment behind `{` */
  readonly opening: string | undefined;
  /** it may stand on the line of its head, if that has room */
  readonly inline: boolean;
}
