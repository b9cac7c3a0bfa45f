import * as z from 'zod';
import { settingsFile } from './settings.ts';

/** The settings as a JSON schema, which an editor checks `curette.json` with while it is typed. */
export function generate(): readonly { path: string; text: string }[] {
  const schema = z.toJSONSchema(settingsFile, { io: 'input', target: 'draft-7' });
  return [{ path: 'shared/settings.schema.json', text: `${JSON.stringify(schema, undefined, 2)}\n` }];
}
