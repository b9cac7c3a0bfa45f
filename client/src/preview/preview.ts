import * as vscode from 'vscode';
import type { Server } from '../server.ts';
import { previewState } from '../webview/messages.ts';
import { isProtocol } from './page.ts';
import { type Preview, takeUp } from './panel.ts';

const viewType = 'curette.preview';

/** The command that opens a preview, and the previews that were open when the editor was closed. */
export function providePreview(context: vscode.ExtensionContext, server: Server): vscode.Disposable {
  const previews = new Set<Preview>();
  const add = (panel: vscode.WebviewPanel, state: Parameters<typeof takeUp>[3]) => {
    const icon = (shade: string) => vscode.Uri.joinPath(context.extensionUri, `icons/checklist-${shade}.svg`);
    panel.iconPath = { light: icon('light'), dark: icon('dark') };
    const preview = takeUp(context, server, panel, state);
    previews.add(preview);
    panel.onDidDispose(() => previews.delete(preview));
  };
  return vscode.Disposable.from(
    vscode.commands.registerCommand('curette.showPreview', (uri?: vscode.Uri) => {
      const document = uri ?? activeProtocol();
      if (document === undefined) {
        void vscode.window.showInformationMessage(
          'Open a protocol (a .curette file) first: what is shown is made from it.',
        );
        return;
      }
      const key = document.toString();
      const open = [...previews].find((preview) => preview.state().uri === key || preview.state().follows);
      if (open) {
        open.panel.reveal(undefined, true);
        return;
      }
      const place = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
      const panel = vscode.window.createWebviewPanel(viewType, 'Preview', place, optionsIn(context));
      add(panel, { uri: key, view: 'checklist', follows: true });
    }),
    vscode.window.registerWebviewPanelSerializer(viewType, {
      deserializeWebviewPanel: async (panel, value: unknown) => {
        const state = previewState.safeParse(value);
        panel.webview.options = optionsIn(context);
        const document = state.success ? state.data.uri : activeProtocol()?.toString();
        if (document === undefined) panel.dispose();
        else add(panel, state.success ? state.data : { uri: document, view: 'checklist', follows: true });
      },
    }),
  );
}

function optionsIn(context: vscode.ExtensionContext): vscode.WebviewPanelOptions & vscode.WebviewOptions {
  return {
    enableScripts: true,
    enableFindWidget: true,
    retainContextWhenHidden: true,
    localResourceRoots: [vscode.Uri.joinPath(context.extensionUri, 'dist')],
  };
}

function activeProtocol(): vscode.Uri | undefined {
  const active = vscode.window.activeTextEditor?.document;
  if (active && isProtocol(active)) return active.uri;
  return vscode.window.visibleTextEditors.find(({ document }) => isProtocol(document))?.document.uri;
}
