import type { Content } from './workspace.ts';

/**
 * The kept files, wherever they are: on a disk, or with the editor. A path is absolute and parted by `/`; what is above a file is a prefix
 * of its path.
 */
export interface Files {
  /** undefined: nothing is kept at such an address */
  readonly pathOf: (uri: string) => string | undefined;
  readonly uriOf: (path: string) => string;
  /**
   * Reads a file below a folder, and nothing outside it.
   * @param path from the folder
   */
  readonly read: (root: string, path: string) => Content;
  /** The files below a folder whose name has an ending, as paths from it, sorted; where there are more than `most`, the rest is left out. */
  readonly list: (root: string, ending: string, most?: number) => string[];
  /** The files below a folder whose name is wanted, as paths from it. Others get their turn between. */
  readonly walk: (root: string, wanted: (name: string) => boolean) => AsyncIterable<string>;
}
