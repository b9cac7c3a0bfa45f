import { libraryScheme, libraryTextRequest } from '@curette/shared';
import * as vscode from 'vscode';
import type { Server } from './server.ts';

/** Shows files of the shipped library as read-only documents: "go to definition" leads there. */
export function provideLibraryText(server: Server): vscode.Disposable {
  return vscode.workspace.registerTextDocumentContentProvider(libraryScheme, {
    provideTextDocumentContent: async (uri) => {
      const { text } = await server.request(libraryTextRequest, { uri: uri.toString() });
      if (text === null) throw new Error(`The library has no file ${uri.path}.`);
      return text;
    },
  });
}
