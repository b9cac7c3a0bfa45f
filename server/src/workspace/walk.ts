import { readdir } from 'node:fs/promises';
import { join } from 'node:path';

/** Deeper than this nobody keeps protocols; folders that lead back to themselves by links are not entered at all. */
const DEEPEST = 12;

/** More entries than this are not looked at: a whole disk was opened. */
const MOST_ENTRIES = 200_000;

/**
 * The files below a folder whose name is wanted, as paths from it, parted by `/`; hidden folders and others' packages are left out. One
 * folder is read at a time, and others get their turn between.
 */
export async function* walkBelow(root: string, wanted: (name: string) => boolean): AsyncGenerator<string> {
  const folders = [{ path: '', depth: 0 }];
  let entries = 0;
  for (let folder = folders.shift(); folder; folder = folders.shift()) {
    for (const entry of await entriesOf(join(root, folder.path))) {
      entries += 1;
      if (entries > MOST_ENTRIES) return;
      const path = folder.path === '' ? entry.name : `${folder.path}/${entry.name}`;
      if (entry.isFile() && wanted(entry.name)) yield path;
      else if (
        entry.isDirectory() &&
        folder.depth < DEEPEST &&
        !entry.name.startsWith('.') &&
        entry.name !== 'node_modules'
      )
        folders.push({ path, depth: folder.depth + 1 });
    }
  }
}

async function entriesOf(folder: string) {
  try {
    const entries = await readdir(folder, { withFileTypes: true });
    return entries.sort((a, b) => (a.name < b.name ? -1 : 1));
  } catch {
    return [];
  }
}
