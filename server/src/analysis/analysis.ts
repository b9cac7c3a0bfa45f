import type { CaseStatement, Statement, StatementOf } from '@curette/grammar';
import { duplicateName } from '../problems/duplicate_name.ts';
import { type FileId, type Problem, problemAt, type Report } from '../problems/problem.ts';
import { type CaseFacts, checkCase } from './cases/case.ts';
import { checkIdentifying } from './cases/identifying.ts';
import type { CasesProtocol } from './cases/of.ts';
import { guard } from './guard.ts';
import { locate } from './locate.ts';
import { createModuleMemory, type Module, type ModuleMemory, type Modules, modulesOf } from './names/module.ts';
import { checkUses } from './names/uses.ts';
import { checkProtocolName } from './protocol/head.ts';
import { checkProcedure } from './protocol/procedure.ts';
import { checkProtocol, type ProtocolFacts } from './protocol/protocol.ts';
import { checkReview } from './protocol/review.ts';
import { checkDeclares } from './rules/declares.ts';
import { checkReplaces } from './rules/replaces.ts';
import { checkSettings, isSettings } from './settings.ts';
import type { Snapshot, SourceFile } from './snapshot.ts';
import { checkSyntax } from './syntax.ts';

/** All that the checker found out about a file: one in the language, or the settings of a folder. */
export interface FileFacts {
  readonly file: SourceFile;
  /** undefined when the file could not be taken as text */
  readonly module: Module | undefined;
  readonly protocols: readonly ProtocolFacts[];
  readonly cases: readonly CaseFacts[];
  readonly problems: readonly Problem[];
  /** the day on which it was judged; ISO 8601 */
  readonly today: string;
}

/**
 * The checker. `facts` is a function of the snapshot alone: what it remembers of earlier snapshots makes it faster and changes no
 * answer. Work is redone for what has changed and what reads it: a step's line for its surroundings, a protocol's head for that
 * protocol, a declaration for the files that reach it.
 */
export interface Analysis {
  /** undefined when there is no such file */
  readonly facts: (snapshot: Snapshot, id: FileId) => FileFacts | undefined;
  /** the module of a file, for answers about names */
  readonly modules: (snapshot: Snapshot) => Modules;
  /** a checker that remembers what this one does, and from which this one learns nothing */
  readonly apart: () => Analysis;
  /** what the facts would be with another version of a file; nothing of it is remembered */
  readonly tryOut: (snapshot: Snapshot, file: SourceFile) => FileFacts | undefined;
  /** lets go of the facts of a file; what it declares is still known */
  readonly letGo: (id: FileId) => void;
  /** lets go of all that is remembered of a file: it is there no more */
  readonly forget: (id: FileId) => void;
}

export function createAnalysis(): Analysis {
  return remembering(createModuleMemory(), new Map());
}

function remembering(memory: ModuleMemory, files: Map<FileId, FileFacts>): Analysis {
  const declared = new WeakMap<Module, readonly Problem[]>();
  const checked = new WeakMap<Statement, ProtocolFacts>();

  /** A protocol's facts, worked out once whichever file asks for them first. */
  const protocolFacts = (module: Module, file: SourceFile, item: StatementOf<'protocol'>): ProtocolFacts => {
    const known = checked.get(item);
    if (known && known.context.module === module) return known;
    const old = files.get(file.id)?.protocols.find((other) => other.statement.id === item.id);
    const same = old && old.statement === item && old.context.module === module;
    const facts = same ? old : checkProtocol(module, item, textIn(file), old);
    checked.set(item, facts);
    return facts;
  };

  /** The protocol that a case is of, where that is declared; undefined when no file in sight declares it. */
  const protocolOf = (snapshot: Snapshot, module: Module, { of }: CaseStatement): CasesProtocol | undefined => {
    const scope = of && module.visible.find((other) => other.protocols.has(of.text));
    const file = scope && snapshot.file(scope.id);
    const home = scope && modulesOf(snapshot, memory).module(scope.id);
    if (!file || !home) return undefined;
    for (const item of file.tree.body.items)
      if (item.type === 'protocol' && item.name?.text === of.text)
        return { module: home, statement: item, facts: protocolFacts(home, file, item), text: textIn(file) };
    return undefined;
  };

  /** A case in another file than its protocol hangs on lines that are no declarations. */
  const casesCurrent = (snapshot: Snapshot, module: Module, { cases }: FileFacts): boolean =>
    cases.every((one) => protocolOf(snapshot, module, one.statement)?.facts === one.of?.facts);

  const moduleOf = (snapshot: Snapshot, id: FileId, report: Report): Module | undefined => {
    let module: Module | undefined;
    guard(id, undefined, 'names', report, () => {
      module = modulesOf(snapshot, memory).module(id);
    });
    return module;
  };

  const declaredProblems = (module: Module): readonly Problem[] => {
    const known = declared.get(module);
    if (known) return known;
    const problems: Problem[] = [];
    const report: Report = (problem) => problems.push(problem);
    guard(module.id, undefined, 'declarations', report, () => {
      for (const problem of module.declarations.problems()) report(problem);
    });
    for (const [verb, statements] of module.scope.verbs)
      for (const statement of statements) {
        if (statement.type !== 'procedure') continue;
        const procedure = module.declarations.verb(verb).find((other) => other.statement === statement);
        if (procedure?.type === 'procedure')
          guard(module.id, statement, 'procedure', report, () => checkProcedure(module, statement, procedure, report));
      }
    guard(module.id, undefined, 'rules on declarations', report, () => checkDeclares(module, report));
    guard(module.id, undefined, 'rules that replace', report, () => checkReplaces(module, report));
    for (const { name, statement, first } of module.scope.repeated)
      report(
        problemAt(
          duplicateName,
          { file: module.id, statement, span: name },
          { name: name.text, first: { file: module.id, statement: first, span: name } },
        ),
      );
    declared.set(module, problems);
    return problems;
  };

  const apart = () => remembering({ scopes: new Map(memory.scopes), modules: new Map(memory.modules) }, new Map(files));

  return {
    modules: (snapshot) => modulesOf(snapshot, memory),
    apart,
    tryOut: (snapshot, file) =>
      apart().facts({ ...snapshot, file: (id) => (id === file.id ? file : snapshot.file(id)) }, file.id),
    letGo: (id) => {
      files.delete(id);
    },
    forget: (id) => {
      files.delete(id);
      memory.scopes.delete(id);
      memory.modules.delete(id);
    },
    facts: (snapshot, id) => {
      const file = snapshot.file(id);
      if (!file) {
        files.delete(id);
        return undefined;
      }
      const previous = files.get(id);
      const problems: Problem[] = [];
      const report: Report = (problem) => problems.push(problem);
      if (isSettings(id)) {
        if (previous?.file === file) return previous;
        guard(id, undefined, 'settings', report, () => checkSettings(file, report));
        const facts: FileFacts = { file, module: undefined, protocols: [], cases: [], problems, today: snapshot.today };
        files.set(id, facts);
        return facts;
      }
      const module = file.trouble ? undefined : moduleOf(snapshot, id, report);
      if (
        previous &&
        previous.file === file &&
        previous.today === snapshot.today &&
        previous.module === module &&
        (!module || casesCurrent(snapshot, module, previous))
      )
        return previous;

      guard(id, undefined, 'reading', report, () => checkSyntax(file, report));
      const protocols: ProtocolFacts[] = [];
      const cases: CaseFacts[] = [];
      if (module) {
        guard(id, undefined, 'files in use', report, () => checkUses(module, file.tree, snapshot, report));
        for (const problem of declaredProblems(module)) report(problem);
        for (const item of file.tree.body.items)
          if (item.type === 'protocol')
            guard(id, item, 'protocol', report, () => {
              const facts = protocolFacts(module, file, item);
              protocols.push(facts);
              for (const problem of facts.problems) report(problem);
              guard(id, item, 'review', report, () => checkReview(module, item, snapshot.today, report));
            });
        file.tree.body.items.forEach((item, at) => {
          if (item.type !== 'case') return;
          guard(id, item, 'case', report, () => {
            if (item.of) checkProtocolName(module, item, item.of, report);
            const old = previous?.cases.find((other) => other.statement.id === item.id);
            const judged = caseFacts(module, item, protocolOf(snapshot, module, item), old);
            const identifying = checkIdentifying(module, file, snapshot, item, stretchOf(file, at));
            const facts: CaseFacts = { ...judged, identifying };
            cases.push(facts);
            for (const problem of [...facts.problems, ...identifying]) report(problem);
          });
        });
      }
      const facts: FileFacts = { file, module, protocols, cases, problems, today: snapshot.today };
      files.set(id, facts);
      return facts;
    },
  };
}

/** A case is what it was while its own lines are, and the protocol it is of. */
function caseFacts(
  module: Module,
  item: CaseStatement,
  of: CasesProtocol | undefined,
  previous: CaseFacts | undefined,
): CaseFacts {
  const same = previous?.statement === item && previous.module === module && previous.of?.facts === of?.facts;
  return same ? previous : checkCase(module, item, of, previous);
}

function textIn(file: SourceFile): (statement: Statement) => string {
  return (statement) => {
    const start = locate(file.tree, statement.id)?.start ?? 0;
    return file.text.slice(start + statement.head.start, start + statement.head.end);
  };
}

/** A line at the outer level with what stands between it and its neighbours: the remarks before it, of the last also those behind it. */
function stretchOf({ tree, text }: SourceFile, at: number): { start: number; from: number; to: number } {
  const { items, offsets } = tree.body;
  const end = (i: number) => (offsets[i] ?? 0) + (items[i]?.length ?? 0);
  const start = offsets[at] ?? 0;
  return { start, from: at === 0 ? 0 : end(at - 1), to: at === items.length - 1 ? text.length : end(at) };
}
