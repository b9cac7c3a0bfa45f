import { type SignatureInformation as LspSignature, MarkupKind } from 'vscode-languageserver';
import { type Signature, signatureHelp } from '../ide/signature-help.ts';
import type { Session } from './session.ts';

/** Tells how the step that is being typed may go on. */
export function answerSignatureHelp(session: Session): void {
  const { connection, workspace, guard } = session;
  connection.onSignatureHelp(({ textDocument: { uri }, position }, token) =>
    guard.answer('the slots of an action', token, () => {
      const id = session.idOf(uri);
      const help = signatureHelp(workspace, id, session.linesOf(id).offsetAt(position));
      if (!help) return null;
      const active = help.signatures[help.active];
      return {
        signatures: help.signatures.map(toSignature),
        activeSignature: help.active,
        activeParameter: activeOf(active),
      };
    }),
  );
}

function toSignature(signature: Signature): LspSignature {
  const { label, markdown, slots } = signature;
  return {
    label,
    ...(markdown === '' ? {} : { documentation: { kind: MarkupKind.Markdown, value: markdown } }),
    parameters: slots.map(({ start, end, markdown: words }) => ({
      label: [start, end],
      ...(words === '' ? {} : { documentation: { kind: MarkupKind.Markdown, value: words } }),
    })),
    activeParameter: activeOf(signature),
  };
}

/** Beyond the last slot: an editor then shows none of them as the one that is written. */
function activeOf(signature: Signature | undefined): number {
  return signature?.activeSlot ?? signature?.slots.length ?? 0;
}
