import { newProtocolRequest, type OperationChoices, operationChoicesRequest, operationsRequest } from '@curette/shared';
import * as vscode from 'vscode';
import type { Server } from './server.ts';

/** What can be said beforehand, for whoever calls the command from elsewhere: nobody is then asked. */
interface Given {
  readonly operation: string;
  readonly title: string;
}

/** The command that begins a protocol: asks what for, which visits, which materials, and opens a sound one. */
export function provideNewProtocol(server: Server): vscode.Disposable {
  return vscode.commands.registerCommand('curette.newProtocol', async (given?: Given) => {
    try {
      await begin(server, given);
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      void vscode.window.showErrorMessage(`No protocol could be begun: ${reason}`);
    }
  });
}

async function begin(server: Server, given: Given | undefined): Promise<void> {
  const { operations } = await server.request(operationsRequest, {});
  const operation =
    operations.find(({ name }) => name === given?.operation) ??
    (await pick(
      'What is it a protocol for? (1 of 4)',
      operations.map((one) => ({ label: one.title, detail: one.about, one })),
    ));
  if (!operation) return;
  const choices = await server.request(operationChoicesRequest, { operation: operation.name });
  const title =
    given?.title ??
    (await vscode.window.showInputBox({
      title: 'What is it called? (2 of 4)',
      value: operation.title,
      prompt: 'The title that stands on the checklist. Nothing that leads to a patient.',
      ignoreFocusOut: true,
      validateInput: (text) => (text.trim() === '' ? 'A protocol has a title.' : undefined),
    }));
  if (title === undefined) return;
  const visits = given ? choices.visits.map(({ name }) => name) : await pickVisits(choices);
  if (!visits) return;
  const materials = given ? {} : await pickMaterials(choices);
  if (!materials) return;
  const made = await server.request(newProtocolRequest, { operation: operation.name, title, visits, materials });
  const document = await vscode.workspace.openTextDocument({ language: 'curette', content: made.text });
  const editor = await vscode.window.showTextDocument(document);
  const { start, end } = made.titleAt;
  editor.selection = new vscode.Selection(document.positionAt(start), document.positionAt(end));
  editor.revealRange(editor.selection, vscode.TextEditorRevealType.InCenterIfOutsideViewport);
  if (made.kept.length > 0) void vscode.window.showInformationMessage(made.kept.join(' '));
}

async function pickVisits({ visits }: OperationChoices): Promise<string[] | undefined> {
  const needed = visits.filter(({ optional }) => !optional).map(({ name }) => name);
  const free = visits.filter(({ optional }) => optional);
  if (free.length === 0) return needed;
  const must = visits.filter(({ optional }) => !optional).map(({ title }) => title);
  const chosen = await vscode.window.showQuickPick(
    free.map(({ name, title }) => ({ label: title, name, picked: true })),
    {
      title: 'Which visits? (3 of 4)',
      placeHolder: must.length > 0 ? `Always there: ${must.join(', ')}` : 'Those that are not ticked are left out',
      canPickMany: true,
      ignoreFocusOut: true,
    },
  );
  return chosen && [...needed, ...chosen.map(({ name }) => name)];
}

/** Asks again and again which material is exchanged, until nothing more is. */
async function pickMaterials({ materials }: OperationChoices): Promise<Record<string, string> | undefined> {
  const chosen: Record<string, string> = {};
  for (;;) {
    const rows = materials.map((material) => {
      const entry = chosen[material.name] ?? material.entry;
      const title = [material, ...material.others].find((one) => one.entry === entry)?.title ?? entry;
      return { label: title, description: material.kind, one: material };
    });
    const material = await pick<OperationChoices['materials'][number] | 'done'>('Which materials? (4 of 4)', [
      { label: '$(check) Write the protocol', description: 'with the materials below', one: 'done' },
      ...rows,
    ]);
    if (material === undefined) return undefined;
    if (material === 'done') return chosen;
    const other = await pick(
      `In place of ${material.title}`,
      [material, ...material.others].map(({ entry, title }) => ({ label: title, one: entry })),
    );
    if (other !== undefined) chosen[material.name] = other;
  }
}

async function pick<T>(
  title: string,
  rows: readonly (vscode.QuickPickItem & { readonly one: T })[],
): Promise<T | undefined> {
  const options = { title, ignoreFocusOut: true, matchOnDetail: true };
  return (await vscode.window.showQuickPick(rows, options))?.one;
}
