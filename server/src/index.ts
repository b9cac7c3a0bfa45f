export { type Analysis, createAnalysis, type FileFacts } from './analysis/analysis.ts';
export { offsetsOf } from './analysis/locate.ts';
export type { Snapshot, SourceFile } from './analysis/snapshot.ts';
export type { AnyProblemKind, Edit, FileId, Mend, Place, Problem, Severity } from './problems/problem.ts';
export { type Content, createWorkspace, LARGEST_FILE, type TextChange, type Workspace } from './workspace/workspace.ts';
