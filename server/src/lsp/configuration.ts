import { type ToothNumbering, toothNumberings } from '@curette/shared';
import { DidChangeConfigurationNotification } from 'vscode-languageserver';
import * as z from 'zod';
import type { Session } from './session.ts';

/** What a user sets in the editor, under `curette`. */
const configuration = z.object({
  /** false: only files that are open are checked */
  checkWorkspace: z.boolean().nullish(),
  /** which numbers stand first where teeth are shown; something else than these counts as nothing said */
  toothNumbers: z.enum(toothNumberings).nullish().catch(undefined),
});

/**
 * Tells what is set, at the start and whenever it changes. An editor that cannot be asked has said it at the start, or has not.
 * @param otherwise what holds where nothing is set
 */
export function followConfiguration(
  { connection, guard, client }: Session,
  otherwise: { readonly checkWorkspace: boolean },
  apply: (settings: { readonly checkWorkspace: boolean; readonly toothNumbers: ToothNumbering }) => void,
): void {
  const read = async () => {
    let value: unknown;
    try {
      value = await connection.workspace.getConfiguration('curette');
    } catch {
      // The editor has gone, or cannot tell after all.
    }
    const { data } = configuration.safeParse(value);
    apply({
      checkWorkspace: data?.checkWorkspace ?? otherwise.checkWorkspace,
      toothNumbers: data?.toothNumbers ?? 'iso',
    });
  };
  if (!client.configuration) {
    apply({ ...otherwise, toothNumbers: 'iso' });
    return;
  }
  if (client.configurationChanges) {
    guard.send(
      'following the settings',
      connection.client.register(DidChangeConfigurationNotification.type, { section: 'curette' }),
    );
    connection.onDidChangeConfiguration(() => guard.send('the settings', read()));
  }
  guard.send('the settings', read());
}
