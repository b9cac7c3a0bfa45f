/**
 * Where braces do not pair, indentation tells which one is missing. Only files whose braces do not pair are repaired, and
 * only as often as braces are missing: a sound file is never read by its indentation.
 */
import type { Frame } from './layout.ts';
import type { Unpaired } from './lex.ts';

export class Repair {
  private closesMissing: number;
  private opensMissing: number;

  constructor(unpaired: Unpaired) {
    this.closesMissing = unpaired.opens;
    this.opensMissing = unpaired.closes;
  }

  /**
   * Whether the innermost block must have ended before this line.
   * @param indent of the line
   * @param closes whether the line begins with `}`
   */
  unclosed(frame: Frame<unknown>, indent: number, closes: boolean): boolean {
    if (this.closesMissing === 0) return false;
    // A body as far to the left as its head says nothing about where it ends.
    const shows = frame.bodyIndent < 0 || frame.bodyIndent > frame.indent;
    const ended = closes ? frame.indent > indent : shows && indent <= frame.indent;
    if (ended) this.closesMissing--;
    return ended;
  }

  /** Whether a `}` that begins a line closes nothing, rather than the innermost block. */
  stray(frame: Frame<unknown>, indent: number): boolean {
    if (this.opensMissing === 0 || frame.bodyIndent < 0) return false;
    const stray = indent > frame.indent && indent >= frame.bodyIndent;
    if (stray) this.opensMissing--;
    return stray;
  }

  /** Whether the head of a block is missing before this line: it is indented further than the lines above it. */
  headless(frame: Frame<unknown>, indent: number): boolean {
    if (this.opensMissing === 0 || frame.bodyIndent < 0 || indent <= frame.bodyIndent) return false;
    this.opensMissing--;
    return true;
  }

  missingOpen(): boolean {
    return this.opensMissing > 0;
  }

  /** A block was opened without its `{`. */
  opened(): void {
    this.opensMissing--;
  }
}
