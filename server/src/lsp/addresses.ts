import { libraryPath, libraryUri } from '@curette/shared';
import type { FileId } from '../problems/problem.ts';
import type { Files } from '../workspace/files.ts';

/**
 * What the editor calls a file, and what the checker calls it. A file in the first folder has its path from there as id; one in a
 * further folder, or outside of all, has the folder's mark before it (`folder2:a.curette`), so that no `use` leads from one folder into
 * another. A document that is kept nowhere is a folder of its own.
 */
export interface Addresses {
  readonly idOf: (uri: string) => FileId;
  /** the id of a file in a folder, both as `placeOf` tells them */
  readonly idIn: (root: string, path: string) => FileId;
  /** the folders that are worked in, as paths */
  readonly folders: () => readonly string[];
  /** undefined for an id that was never given an address and is kept nowhere */
  readonly uriOf: (id: FileId) => string | undefined;
  /** the folder of a kept file, and its path from there; undefined for what is kept nowhere */
  readonly placeOf: (id: FileId) => { readonly root: string; readonly path: string } | undefined;
}

/** @param folders addresses of the folders that are worked in */
export function createAddresses(folders: readonly string[], files: Files): Addresses {
  const roots: { readonly mark: string; readonly path: string }[] = [];
  const addRoot = (path: string) => {
    const root = { mark: roots.length === 0 ? '' : `folder${roots.length + 1}:`, path };
    roots.push(root);
    return root;
  };
  for (const folder of folders) {
    const path = files.pathOf(folder);
    if (path !== undefined) addRoot(path.length > 1 && path.endsWith('/') ? path.slice(0, -1) : path);
  }
  const worked = roots.map(({ path }) => path);
  const elsewhere = new Map<string, FileId>();
  const known = new Map<FileId, string>();

  const idOf = (uri: string): FileId => {
    const library = libraryPath(uri);
    if (library !== undefined) return `library:${library}`;
    const path = files.pathOf(uri);
    if (path === undefined) {
      let id = elsewhere.get(uri);
      if (id === undefined) {
        id = `unsaved${elsewhere.size + 1}:document.curette`;
        elsewhere.set(uri, id);
        known.set(id, uri);
      }
      return id;
    }
    const around = roots.filter((root) => isBelow(root.path, path));
    const root = around.sort((a, b) => b.path.length - a.path.length)[0] ?? addRoot(folderOf(path));
    const id = `${root.mark}${written(path.slice(below(root.path).length))}`;
    known.set(id, uri);
    return id;
  };

  const placeOf: Addresses['placeOf'] = (id) => {
    const mark = id.slice(0, id.indexOf(':') + 1);
    const root = roots.find((other) => other.mark === mark);
    return root && { root: root.path, path: meant(id.slice(mark.length)) };
  };

  return {
    idOf,
    idIn: (root, path) => `${roots.find((other) => other.path === root)?.mark ?? ''}${written(path)}`,
    folders: () => worked,
    placeOf,
    uriOf: (id) => {
      if (id.startsWith('library:')) return libraryUri(id.slice('library:'.length));
      const address = known.get(id);
      if (address !== undefined) return address;
      const place = placeOf(id);
      return place && files.uriOf(below(place.root) + place.path);
    },
  };
}

function isBelow(folder: string, path: string): boolean {
  return path.startsWith(below(folder)) && path.length > below(folder).length;
}

/** What the path of everything in a folder begins with. */
function below(folder: string): string {
  return folder.endsWith('/') ? folder : `${folder}/`;
}

function folderOf(path: string): string {
  return path.slice(0, path.lastIndexOf('/')) || '/';
}

/** In an id a colon ends the folder's mark; a colon in a file's name is written otherwise. */
function written(path: string): string {
  return path.replaceAll('%', '%25').replaceAll(':', '%3A');
}

function meant(path: string): string {
  return path.replaceAll('%3A', ':').replaceAll('%25', '%');
}
