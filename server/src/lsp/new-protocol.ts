import { newProtocolRequest, operationChoicesRequest, operationsRequest } from '@curette/shared';
import { ErrorCodes, ResponseError } from 'vscode-languageserver';
import { createDrafter, type Drafter } from '../ide/new-protocol.ts';
import type { Session } from './session.ts';
import { answerInSlices } from './slices.ts';

/** Answers what the command that begins a new protocol asks. Nothing of it hangs on what is open. */
export function answerNewProtocol({ connection, workspace, guard }: Session): void {
  let made: Drafter | undefined;
  const drafter = () => {
    made ??= createDrafter(workspace.snapshot());
    return made;
  };
  const always = () => undefined;

  connection.onRequest(operationsRequest.method, (_: unknown, token) =>
    guard.answer('kinds of operation', token, () => ({ operations: [...drafter().operations()] })),
  );
  connection.onRequest(operationChoicesRequest.method, (value: unknown, token) =>
    answerInSlices(guard, 'choices for a protocol', token, always, function* () {
      const asked = operationChoicesRequest.params.safeParse(value);
      if (!asked.success) throw new ResponseError(ErrorCodes.InvalidParams, asked.error.message);
      const choices = yield* drafter().choices(asked.data.operation);
      return choices ?? unknown(asked.data.operation);
    }),
  );
  connection.onRequest(newProtocolRequest.method, (value: unknown, token) =>
    answerInSlices(guard, 'a new protocol', token, always, function* () {
      const asked = newProtocolRequest.params.safeParse(value);
      if (!asked.success) throw new ResponseError(ErrorCodes.InvalidParams, asked.error.message);
      const drafted = yield* drafter().draft(asked.data);
      return drafted ?? unknown(asked.data.operation);
    }),
  );
}

function unknown(operation: string): never {
  throw new ResponseError(ErrorCodes.InvalidParams, `There is no kind of operation called "${operation}".`);
}
