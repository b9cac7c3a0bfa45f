import {
  type CancellationToken,
  type Connection,
  ErrorCodes,
  LSPErrorCodes,
  ResponseError,
} from 'vscode-languageserver';

/**
 * Nothing that goes wrong in an answer ends the server: it is written to the editor's log, and the next message is taken up. What a
 * request waits for is answered with `otherwise`.
 */
export interface Guard {
  readonly run: <T, Otherwise>(what: string, work: () => T, otherwise: Otherwise) => T | Otherwise;
  /** answers a request, unless it has been taken back meanwhile; what goes wrong is answered as such, and logged */
  readonly answer: <T>(what: string, token: CancellationToken, work: () => T) => T | ResponseError;
  /** sends something; that the editor has gone meanwhile is no error */
  readonly send: (what: string, sending: Promise<unknown>) => void;
}

/** Has a listener told of everything that nobody has caught. */
export type Strays = (tell: (what: string, error: unknown) => void) => void;

export function createGuard(connection: Connection, strays: Strays): Guard {
  const log = (what: string, error: unknown) => {
    const text = error instanceof Error ? (error.stack ?? error.message) : String(error);
    try {
      connection.console.error(`${what}: ${text}`);
    } catch {
      // There is nobody left to tell.
    }
  };
  strays((what, error) => log(what, error));
  return {
    run: (what, work, otherwise) => {
      try {
        return work();
      } catch (error) {
        log(what, error);
        return otherwise;
      }
    },
    answer: (what, token, work) => {
      if (token.isCancellationRequested) return new ResponseError(LSPErrorCodes.RequestCancelled, 'taken back');
      try {
        return work();
      } catch (error) {
        if (error instanceof ResponseError) return error;
        log(what, error);
        return new ResponseError(ErrorCodes.InternalError, `${what} could not be answered`);
      }
    },
    send: (what, sending) => {
      sending.catch((error: unknown) => log(what, error));
    },
  };
}
