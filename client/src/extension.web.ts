import type * as vscode from 'vscode';
import { provideFeatures } from './features.ts';
import { createServer } from './server.web.ts';

/** The same where extensions run in a browser. */
export function activate(context: vscode.ExtensionContext): Promise<void> {
  return provideFeatures(context, createServer(context));
}
