import type { Statement } from '@curette/grammar';
import type { FileFacts } from '../analysis/analysis.ts';
import type { ProtocolFacts } from '../analysis/protocol/protocol.ts';
import type { FileId } from '../problems/problem.ts';
import { positionOf } from './text.ts';

/** On which line a statement begins, counted from 1; null for one that does not stand in the file that declares the protocol. */
export type Lines = (file: FileId, statement: Statement) => number | null;

/**
 * @param file the file that was asked about: it declares the protocol, or a case of it
 * @param factsOf gives the facts of the files it uses
 */
export function linesOf(
  file: FileFacts,
  protocol: ProtocolFacts,
  factsOf: (id: string) => FileFacts | undefined,
): Lines {
  const { id } = protocol.context.module;
  const declaring = id === file.file.id ? file.file : factsOf(id)?.file;
  return (of, { id: statement, head }) =>
    declaring && of === id ? (positionOf(declaring, { file: id, statement, span: head })?.line ?? null) : null;
}
