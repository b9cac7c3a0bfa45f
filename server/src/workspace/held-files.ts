import type { Files } from './files.ts';
import type { Content } from './workspace.ts';

/** Files that only the editor can read: it tells what stands in them, here it is held. */
export interface HeldFiles extends Files {
  /** what stands at an address now; `absent`: nothing any more */
  readonly put: (uri: string, content: Content) => void;
}

/** Neither on a disk nor in a folder of the editor: an unsaved text, an earlier state of a file. */
const NOWHERE = /^(file|untitled|git|output|curette-[\w-]+):|\?/;

export function createHeldFiles(): HeldFiles {
  const contents = new Map<string, Content>();
  const addresses = new Map<string, string>();

  const pathOf = (uri: string): string | undefined => {
    if (NOWHERE.test(uri) || !isHeldPath(uri)) return undefined;
    try {
      return decodeURIComponent(uri);
    } catch {
      return undefined;
    }
  };
  const below = (root: string, wanted: (name: string) => boolean, most = Number.POSITIVE_INFINITY): string[] => {
    const start = root.endsWith('/') ? root : `${root}/`;
    const found: string[] = [];
    for (const path of contents.keys())
      if (path.startsWith(start) && wanted(path.slice(path.lastIndexOf('/') + 1))) found.push(path.slice(start.length));
    return found.sort().slice(0, most);
  };

  return {
    put: (uri, content) => {
      const path = pathOf(uri);
      if (path === undefined) return;
      addresses.set(path, uri);
      if (content.type === 'absent') contents.delete(path);
      else contents.set(path, content);
    },
    pathOf,
    uriOf: (path) => addresses.get(path) ?? encodeURI(path).replace(/[?#]/g, encodeURIComponent),
    read: (root, path) => {
      if (path.split('/').includes('..')) return { type: 'outside' };
      return contents.get(`${root.endsWith('/') ? root : `${root}/`}${path}`) ?? { type: 'absent' };
    },
    list: (root, ending, most) => below(root, (name) => name.endsWith(ending), most),
    async *walk(root, wanted) {
      yield* below(root, wanted);
    },
  };
}

/** Files of which some are on a disk and the others are held. */
export function diskAndHeld(disk: Files, held: Files): Files {
  const of = (root: string) => (isHeldPath(root) ? held : disk);
  return {
    pathOf: (uri) => disk.pathOf(uri) ?? held.pathOf(uri),
    uriOf: (path) => of(path).uriOf(path),
    read: (root, path) => of(root).read(root, path),
    list: (root, ending, most) => of(root).list(root, ending, most),
    walk: (root, wanted) => of(root).walk(root, wanted),
  };
}

/** It begins with a scheme; a single letter is a drive. */
function isHeldPath(path: string): boolean {
  return /^[a-z][a-z0-9+.-]+:\//i.test(path);
}
