import { sep } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { listBelow, readBelow } from './disk.ts';
import type { Files } from './files.ts';
import { walkBelow } from './walk.ts';

/** Files on the disk of the machine that this runs on: those with an address of the scheme `file:`. */
export const diskFiles: Files = {
  pathOf: (uri) => {
    if (!uri.startsWith('file:')) return undefined;
    try {
      return fileURLToPath(uri).split(sep).join('/');
    } catch {
      return undefined;
    }
  },
  uriOf: (path) => pathToFileURL(path).href,
  read: readBelow,
  list: listBelow,
  walk: walkBelow,
};
