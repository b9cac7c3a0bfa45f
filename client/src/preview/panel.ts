import {
  type CasesResult,
  casesRequest,
  type PreviewResult,
  previewChangedNotification,
  previewRequest,
} from '@curette/shared';
import * as vscode from 'vscode';
import type { Server } from '../server.ts';
import { type FromPage, fromPage, type PreviewState, type ToPage } from '../webview/messages.ts';
import { isProtocol, shellPage } from './page.ts';
import { openForPrinting, savePage } from './print.ts';

/** A preview beside the editor: a page about the protocol under the cursor, which follows while the text is edited. */
export interface Preview {
  readonly panel: vscode.WebviewPanel;
  readonly state: () => PreviewState;
}

/**
 * Takes up a panel, new or kept from before a restart.
 * @param state what it is about at first
 */
export function takeUp(
  context: vscode.ExtensionContext,
  server: Server,
  panel: vscode.WebviewPanel,
  first: PreviewState,
): Preview {
  let state = first;
  let shown: PreviewResult | undefined;
  /** of the protocol shown, in all files; asked for when another protocol is shown, and then at times */
  let cases: CasesResult['cases'] = [];
  const send = (message: ToPage) => void panel.webview.postMessage(message);
  const become = (change: Partial<PreviewState>, line?: number) => {
    state = { ...state, ...change };
    refresh(line);
  };

  const refresh = onlyLatest<number | undefined>(async (isLatest, line) => {
    const { uri, view, protocol, case: ofCase } = state;
    try {
      const asked = { uri, view, protocol, case: ofCase, line };
      const page = await server.request(previewRequest, asked);
      if (!isLatest()) return;
      const isOther = page.declaredIn !== shown?.declaredIn || page.protocol !== shown?.protocol;
      shown = page;
      state = { ...state, protocol: page.protocol ?? protocol, case: page.case ?? undefined };
      panel.title = `Preview: ${page.title}`;
      sendPage();
      const cursor = cursorIn(page.declaredIn);
      if (cursor !== undefined) send({ kind: 'cursor', line: cursor });
      if (isOther) await askForCases();
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      if (isLatest()) send({ kind: 'failure', text: `The preview could not be made: ${why}` });
    }
  });

  const sendPage = () => {
    if (!shown) return;
    const { html, protocol, protocols } = shown;
    const { view, follows } = state;
    send({
      kind: 'page',
      html,
      view,
      follows,
      state,
      protocol,
      protocols,
      cases: cases.map(({ uri, name, title }) => ({ key: keyOf(uri, name), title })),
      case: shown.case === null ? null : keyOf(state.uri, shown.case),
    });
  };

  const askForCases = async () => {
    const of = shown;
    if (!of || of.protocol === null || of.declaredIn === null) cases = [];
    else cases = (await server.request(casesRequest, { uri: of.declaredIn, protocol: of.protocol })).cases;
    if (of === shown) sendPage();
  };

  /** The cursor is somewhere else: in the page shown, in another protocol of the document, or in another document. */
  const follow = (editor: vscode.TextEditor | undefined) => {
    if (!editor || !isProtocol(editor.document)) return;
    const uri = editor.document.uri.toString();
    const line = editor.selection.active.line + 1;
    if (uri !== state.uri && uri !== shown?.declaredIn) {
      if (state.follows) become({ uri, protocol: undefined, case: undefined }, line);
      return;
    }
    const inside = (subjects: PreviewResult['protocols']) =>
      uri === state.uri ? subjects.find(({ from, to }) => from <= line && line <= to) : undefined;
    const protocol = inside(shown?.protocols ?? []);
    const ofCase = inside(shown?.cases ?? []);
    // A case of the protocol that the cursor is in stays chosen.
    const isOther = (protocol && protocol.name !== shown?.protocol) || (ofCase && ofCase.name !== shown?.case);
    if (isOther) refresh(line);
    else if (uri === shown?.declaredIn) send({ kind: 'cursor', line });
  };

  const choose = (key: string | null) => {
    const chosen = cases.find(({ uri, name }) => keyOf(uri, name) === key);
    if (chosen) become({ uri: chosen.uri, case: chosen.name });
    else become({ uri: shown?.declaredIn ?? state.uri, protocol: shown?.protocol ?? undefined, case: undefined });
  };
  const take = (message: FromPage): void => {
    switch (message.kind) {
      case 'ready':
        // The page asks once its script listens.
        refresh(cursorIn(state.uri));
        break;
      case 'view':
        become({ view: message.view });
        break;
      case 'protocol':
        become({ protocol: message.name, case: undefined });
        break;
      case 'case':
        choose(message.key);
        break;
      case 'follow':
        become({ follows: message.follows });
        break;
      case 'open':
        void openLine(message.file === undefined ? shown?.declaredIn : shown?.files[message.file], message.line);
        break;
      case 'print':
        if (shown) void openForPrinting(context, shown, state.view);
        break;
      case 'save':
        if (shown) void savePage(shown, state.view);
        break;
      default:
        message satisfies never;
    }
  };

  const subscriptions = [
    panel.webview.onDidReceiveMessage((value: unknown) => {
      const message = fromPage.safeParse(value);
      if (message.success) take(message.data);
    }),
    server.onStarted(() => refresh()),
    server.onNotification(previewChangedNotification, ({ uri }) => {
      if (vscode.Uri.parse(uri).toString() === state.uri) refresh();
    }),
    vscode.window.onDidChangeActiveTextEditor(follow),
    vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => follow(textEditor)),
  ];
  panel.onDidDispose(() => {
    for (const subscription of subscriptions) subscription.dispose();
  });
  panel.webview.html = shellPage(panel.webview, context.extensionUri);

  return { panel, state: () => state };
}

/** What a case is known by to the page: two files may have cases of one name. */
function keyOf(uri: string, name: string): string {
  return `${uri}#${name}`;
}

/** An answer that comes after a newer question is dropped. */
function onlyLatest<Asked>(
  work: (isLatest: () => boolean, asked: Asked | undefined) => Promise<void>,
): (asked?: Asked) => void {
  let latest = 0;
  return (asked) => {
    latest += 1;
    const mine = latest;
    void work(() => mine === latest, asked);
  };
}

function cursorIn(uri: string | null): number | undefined {
  const editor = vscode.window.visibleTextEditors.find(({ document }) => document.uri.toString() === uri);
  return editor && editor.selection.active.line + 1;
}

/** Shows a line of a file in the editor that has it, or in the first column. */
async function openLine(uri: string | null | undefined, line: number): Promise<void> {
  if (typeof uri !== 'string') return;
  const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(uri));
  const open = vscode.window.visibleTextEditors.find((editor) => editor.document === document);
  const at = new vscode.Position(Math.min(line, document.lineCount) - 1, 0);
  const start = at.with({ character: document.lineAt(at).firstNonWhitespaceCharacterIndex });
  await vscode.window.showTextDocument(document, {
    viewColumn: open?.viewColumn ?? vscode.ViewColumn.One,
    selection: new vscode.Range(start, start),
  });
}
