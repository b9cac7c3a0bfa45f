import { checklistChangedNotification, checklistRequest } from '@curette/shared';
import * as vscode from 'vscode';
import type { Server } from './server.ts';
import type { ToPage } from './webview/messages.ts';

/** One panel a document, so that two protocols can stand side by side. */
const panels = new Map<string, vscode.WebviewPanel>();

/**
 * Shows the checklist of a protocol beside its text; it follows while the text is edited.
 * @param uri the protocol's document; absent: the one in the active editor
 */
export function showChecklist(context: vscode.ExtensionContext, server: Server, uri?: vscode.Uri): void {
  const document = uri ?? activeProtocol();
  if (document === undefined) {
    void vscode.window.showInformationMessage(
      'Open a protocol (a .curette file) first: the checklist is made from it.',
    );
    return;
  }
  const key = document.toString();
  const open = panels.get(key);
  if (open) {
    open.reveal(undefined, true);
    return;
  }
  const panel = openPanel(context, server, document);
  panels.set(key, panel);
  panel.onDidDispose(() => panels.delete(key));
}

function activeProtocol(): vscode.Uri | undefined {
  const active = vscode.window.activeTextEditor?.document;
  if (active?.languageId === 'curette') return active.uri;
  return vscode.window.visibleTextEditors.find(({ document }) => document.languageId === 'curette')?.document.uri;
}

function openPanel(context: vscode.ExtensionContext, server: Server, document: vscode.Uri): vscode.WebviewPanel {
  const name = document.path.slice(document.path.lastIndexOf('/') + 1);
  const place = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
  const panel = vscode.window.createWebviewPanel('curette.checklist', `Checklist: ${name}`, place, {
    enableScripts: true,
    enableFindWidget: true,
    retainContextWhenHidden: true,
    localResourceRoots: [vscode.Uri.joinPath(context.extensionUri, 'dist')],
  });
  const icon = (shade: string) => vscode.Uri.joinPath(context.extensionUri, `icons/checklist-${shade}.svg`);
  panel.iconPath = { light: icon('light'), dark: icon('dark') };

  const send = (message: ToPage) => void panel.webview.postMessage(message);
  const refresh = onlyLatest(async (isLatest) => {
    try {
      const { html } = await server.request(checklistRequest, { uri: document.toString() });
      if (isLatest()) send({ kind: 'page', html });
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      if (isLatest()) send({ kind: 'failure', text: `The checklist could not be made: ${why}` });
    }
  });
  const subscriptions = [
    // The page asks once its script listens.
    panel.webview.onDidReceiveMessage(refresh),
    server.onStarted(refresh),
    server.onNotification(checklistChangedNotification, ({ uri }) => {
      if (vscode.Uri.parse(uri).toString() === document.toString()) refresh();
    }),
  ];
  panel.onDidDispose(() => {
    for (const subscription of subscriptions) subscription.dispose();
  });
  panel.webview.html = shell(panel.webview, context.extensionUri);
  return panel;
}

/** An answer that comes after a newer question is dropped. */
function onlyLatest(work: (isLatest: () => boolean) => Promise<void>): () => void {
  let latest = 0;
  return () => {
    latest += 1;
    const mine = latest;
    void work(() => mine === latest);
  };
}

/** The frame that receives pages. Nothing but its own script runs in it, and nothing is loaded from anywhere. */
function shell(webview: vscode.Webview, extension: vscode.Uri): string {
  const nonce = crypto.randomUUID();
  const script = webview.asWebviewUri(vscode.Uri.joinPath(extension, 'dist/checklist-page.js'));
  return `<!doctype html>
<html lang="en">
  <head>
    <meta charset="utf-8">
    <meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'nonce-${nonce}'; style-src 'nonce-${nonce}'">
    <meta name="viewport" content="width=device-width, initial-scale=1">
    <title>Checklist</title>
  </head>
  <body>
    <script nonce="${nonce}" src="${script}"></script>
  </body>
</html>`;
}
