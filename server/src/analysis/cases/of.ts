import type { ProtocolStatement, Statement } from '@curette/grammar';
import type { Module } from '../names/module.ts';
import type { ProtocolFacts } from '../protocol/protocol.ts';

/** A protocol with the file that declares it, as it is in the snapshot that is asked about. */
export interface CasesProtocol {
  readonly module: Module;
  readonly statement: ProtocolStatement;
  readonly facts: ProtocolFacts;
  /** the text of a line of it, as written */
  readonly text: (statement: Statement) => string;
}

/** What it is called. */
export function labelOf({ statement }: Pick<CasesProtocol, 'statement'>): string {
  return statement.label?.value ?? statement.name?.text.replaceAll('_', ' ') ?? 'the protocol';
}
