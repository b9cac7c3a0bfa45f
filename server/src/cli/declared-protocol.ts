import { nearest } from '@curette/shared';
import type { FileFacts } from '../analysis/analysis.ts';
import type { CaseFacts } from '../analysis/cases/case.ts';
import type { ProtocolFacts } from '../analysis/protocol/protocol.ts';
import { visible } from '../render/text.ts';
import { type Input, openInput } from './inputs.ts';
import { UsageError } from './output.ts';

/** A protocol with the file that declares it. */
export interface DeclaredProtocol extends Pick<Input, 'workspace'> {
  readonly facts: FileFacts;
  readonly protocol: ProtocolFacts;
  /** the case whose facts are in the protocol, if one was asked for; the file is then the case's */
  readonly ofCase: CaseFacts | undefined;
}

/**
 * @param name of the protocol; only where the file declares no more than one may it be left out
 * @param caseName of a case that the file declares: its protocol, wherever that is, with its facts in it
 */
export function openProtocol(path: string, name: string | undefined, caseName: string | undefined): DeclaredProtocol {
  const { workspace, facts } = openFacts(path);
  if (caseName !== undefined) {
    if (name !== undefined) throw new UsageError('A case says itself which protocol it is of: leave --protocol out.');
    return { workspace, facts, ...openCase(path, facts, caseName) };
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
  return { workspace, facts, protocol, ofCase: undefined };
}

function openFacts(path: string): Pick<DeclaredProtocol, 'workspace' | 'facts'> {
  const { workspace, id } = openInput(path);
  const facts = workspace.facts(id);
  if (!facts || facts.file.trouble !== undefined) {
    const [problem] = facts?.problems ?? [];
    throw new UsageError(problem ? visible(problem.message) : `${path} could not be read.`);
  }
  return { workspace, facts };
}

function openCase(path: string, facts: FileFacts, wanted: string): Pick<DeclaredProtocol, 'protocol' | 'ofCase'> {
  const ofCase = facts.cases.find(({ statement }) => statement.name?.text === wanted);
  if (!ofCase) {
    const names = facts.cases.flatMap(({ statement }) => statement.name?.text ?? []);
    const near = nearest(wanted, names);
    const known = names.length > 0 ? `It declares ${names.join(', ')}.` : 'It declares none.';
    throw new UsageError(visible(`${path} declares no case "${wanted}". ${near ? `Was "${near}" meant?` : known}`));
  }
  const { protocol, statement } = ofCase;
  if (!protocol)
    throw new UsageError(
      visible(
        statement.of
          ? `The protocol "${statement.of.text}" that the case "${wanted}" is of is not declared in ${path}, nor in a file it uses.`
          : `The case "${wanted}" does not say which protocol it is of.`,
      ),
    );
  return { protocol, ofCase };
}
