import * as vscode from 'vscode';

/** The folder that the sample is copied to, in the one that is chosen. */
const NAME = 'curette-sample';

/** The command that copies the shipped workspace into a folder of the user's and opens it. Nothing that is there is written over. */
export function provideSample(context: vscode.ExtensionContext): vscode.Disposable {
  return vscode.commands.registerCommand('curette.openSample', async (into?: vscode.Uri) => {
    const folder = into ?? (await chooseFolder());
    if (!folder) return undefined;
    try {
      const target = await freeName(folder);
      await vscode.workspace.fs.copy(vscode.Uri.joinPath(context.extensionUri, 'dist/examples'), target, {
        overwrite: false,
      });
      // Whoever names the folder opens it as well.
      if (!into) await vscode.commands.executeCommand('vscode.openFolder', target, { forceNewWindow: hasFolder() });
      return target;
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      void vscode.window.showErrorMessage(`The sample could not be copied: ${reason}`);
      return undefined;
    }
  });
}

async function chooseFolder(): Promise<vscode.Uri | undefined> {
  const chosen = await vscode.window.showOpenDialog({
    title: `Where the folder ${NAME} is made`,
    openLabel: 'Copy the sample here',
    canSelectFolders: true,
    canSelectFiles: false,
    canSelectMany: false,
  });
  return chosen?.[0];
}

/** A name in a folder that nothing there has. */
async function freeName(folder: vscode.Uri): Promise<vscode.Uri> {
  const taken = new Set((await vscode.workspace.fs.readDirectory(folder)).map(([name]) => name));
  for (let count = 1; ; count++) {
    const name = count === 1 ? NAME : `${NAME}-${count}`;
    if (!taken.has(name)) return vscode.Uri.joinPath(folder, name);
  }
}

function hasFolder(): boolean {
  return (vscode.workspace.workspaceFolders?.length ?? 0) > 0;
}
