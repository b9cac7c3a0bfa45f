import { type InitializationOptions, initializationOptions } from '@curette/shared';
import type { Guard } from './guard.ts';

/** What the editor sends at the start; what cannot be read is told and left aside. */
export function readOptions(value: unknown, guard: Guard): InitializationOptions {
  if (value === undefined || value === null) return {};
  return guard.run('initializationOptions', () => initializationOptions.parse(value), {});
}
