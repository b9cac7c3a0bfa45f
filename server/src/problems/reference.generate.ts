import { allPages } from './explain.ts';

/** The reference page of all problems. */
export function generate(): ReadonlyArray<{ readonly path: string; readonly text: string }> {
  return [{ path: 'server/PROBLEMS.md', text: allPages() }];
}
