/** Tables: lines of one sort below each other have their values in one column. */
import type { Container, Statement } from '../tree.ts';

/** How many words of a line stand in the left column; 0 for a line that is in no table. */
export function keyLength(statement: Statement, container: Container): number {
  if (!tabular.has(container)) return 0;
  if (statement.type === 'thing') return statement.kind === undefined ? 0 : 1;
  if (container === 'protocol' && !aboutProtocol.has(statement.type)) return 0;
  // Beside `needs` and `by` they are sentences, and would spread the column.
  if (container === 'action' && (statement.type === 'contraindicated' || statement.type === 'caution')) return 0;
  return twoWords.has(statement.type) ? 2 : 1;
}

/** Blocks of facts; steps and declarations are read as sentences. */
const tabular: ReadonlySet<Container> = new Set<Container>([
  'kind',
  'properties',
  'action',
  'rule',
  'source',
  'finding',
  'pause',
  'protocol',
  'things',
  'case',
  'figures',
  'figure',
]);

const aboutProtocol: ReadonlySet<Statement['type']> = new Set<Statement['type']>([
  'version',
  'status',
  'owner',
  'review',
  'reviewed',
  'approved',
  'follows',
]);

/** `must end`, `serves as`, `uses up`, `for each` and `for all` */
const twoWords: ReadonlySet<Statement['type']> = new Set<Statement['type']>([
  'must end',
  'serves as',
  'uses up',
  'for each',
]);
