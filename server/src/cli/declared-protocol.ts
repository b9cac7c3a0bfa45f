import { nearest } from '@curette/shared';
import type { FileFacts } from '../analysis/analysis.ts';
import type { ProtocolFacts } from '../analysis/protocol/protocol.ts';
import { visible } from '../render/text.ts';
import { type Input, openInput } from './inputs.ts';
import { UsageError } from './output.ts';

/** A protocol with the file that declares it. */
export interface DeclaredProtocol extends Pick<Input, 'workspace'> {
  readonly facts: FileFacts;
  readonly protocol: ProtocolFacts;
}

/** @param name of the protocol; only where the file declares no more than one may it be left out */
export function openProtocol(path: string, name: string | undefined): DeclaredProtocol {
  const { workspace, id } = openInput(path);
  const facts = workspace.facts(id);
  if (!facts || facts.file.trouble !== undefined) {
    const [problem] = facts?.problems ?? [];
    throw new UsageError(problem ? visible(problem.message) : `${path} could not be read.`);
  }
  const names = facts.protocols.map(({ statement }) => statement.name?.text ?? '');
  const [first] = names;
  if (first === undefined) throw new UsageError(`${path} declares no protocol.`);
  const wanted = name ?? first;
  if (name === undefined && names.length > 1)
    throw new UsageError(`${path} declares ${names.length} protocols; name one with --protocol: ${names.join(', ')}.`);
  const protocol = facts.protocols[names.indexOf(wanted)];
  if (!protocol) {
    const near = nearest(wanted, names);
    const hint = near ? ` Was "${near}" meant?` : ` It declares ${names.join(', ')}.`;
    throw new UsageError(visible(`${path} declares no protocol "${wanted}".${hint}`));
  }
  return { workspace, facts, protocol };
}
