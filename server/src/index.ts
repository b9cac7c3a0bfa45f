export { type Analysis, createAnalysis, type FileFacts } from './analysis/analysis.ts';
export { offsetsOf } from './analysis/locate.ts';
export type { Snapshot, SourceFile } from './analysis/snapshot.ts';
export { replacementsOf } from './ide/apply-edit.ts';
export { allPages, problemPage, rulePage } from './problems/explain.ts';
export { problemKinds } from './problems/index.generated.ts';
export type { AnyProblemKind, Edit, FileId, Mend, Place, Problem, Severity } from './problems/problem.ts';
export { problemText, unpainted } from './render/problem-text.ts';
export { type Content, createWorkspace, LARGEST_FILE, type TextChange, type Workspace } from './workspace/workspace.ts';
