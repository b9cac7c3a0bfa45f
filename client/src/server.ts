import type * as vscode from 'vscode';
import type * as z from 'zod';

/** The language server as the rest of the client sees it. */
export interface Server extends vscode.Disposable {
  readonly start: () => Promise<void>;
  readonly restart: () => Promise<void>;
  /** Asks, and validates the answer. @throws when the server is not running, fails, or answers with something else */
  readonly request: <Params extends z.ZodType, Result extends z.ZodType>(
    request: { readonly method: string; readonly params: Params; readonly result: Result },
    params: z.input<Params>,
  ) => Promise<z.output<Result>>;
  readonly onNotification: <Params extends z.ZodType>(
    notification: { readonly method: string; readonly params: Params },
    handler: (params: z.output<Params>) => void,
  ) => vscode.Disposable;
  /** Fires whenever the server has started, the first time included. */
  readonly onStarted: vscode.Event<void>;
}
