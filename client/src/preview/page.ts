import * as vscode from 'vscode';

/** Documents that can declare a protocol; a file of the shipped library declares none. */
export function isProtocol(document: vscode.TextDocument): boolean {
  return (
    document.languageId === 'curette' && (document.uri.scheme === 'file' || document.isUntitled || isRemote(document))
  );
}

function isRemote({ uri }: vscode.TextDocument): boolean {
  return vscode.workspace.getWorkspaceFolder(uri) !== undefined;
}

/** The frame that receives pages. Nothing but its own script runs in it, and nothing is loaded from anywhere. */
export function shellPage(webview: vscode.Webview, extension: vscode.Uri): string {
  const nonce = crypto.randomUUID();
  const script = webview.asWebviewUri(vscode.Uri.joinPath(extension, 'dist/preview-page.js'));
  return `<!doctype html>
<html lang="en">
  <head>
    <meta charset="utf-8">
    <meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'nonce-${nonce}'; style-src 'nonce-${nonce}'">
    <meta name="viewport" content="width=device-width, initial-scale=1">
    <title>Preview</title>
  </head>
  <body>
    <script nonce="${nonce}" src="${script}"></script>
  </body>
</html>`;
}
