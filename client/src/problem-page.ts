import { problemPageRequest } from '@curette/shared';
import * as vscode from 'vscode';
import type { Server } from './server.ts';

const scheme = 'curette-problem';

/**
 * The address of the page about a kind of problem. The extension's manifest has the editor show addresses of this
 * scheme as a rendered page.
 */
export function problemPageAddress(code: string): string {
  return `${scheme}:/${code}.md`;
}

/** Answers the pages' texts. */
export function provideProblemPages(server: Server): vscode.Disposable {
  return vscode.workspace.registerTextDocumentContentProvider(scheme, {
    provideTextDocumentContent: async (uri) => {
      const code = uri.path.replace(/^\//, '').replace(/\.md$/, '');
      const { markdown } = await server.request(problemPageRequest, { code });
      return markdown ?? `# ${code}\n\nThere is no page about this problem.\n`;
    },
  });
}
