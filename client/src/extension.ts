import type * as vscode from 'vscode';
import { provideFeatures } from './features.ts';
import { createServer } from './server.node.ts';

/** Called by the editor when the first protocol is opened, where extensions run on a machine. */
export function activate(context: vscode.ExtensionContext): Promise<void> {
  return provideFeatures(context, createServer(context));
}
