import { listWords } from '../../problems/words.ts';
import type { Finding } from '../model.ts';
import type { Assumption } from './flow.ts';

/** "buccal wall is thin or lost" */
export function sayFinding(finding: Finding): Assumption['say'] {
  return (values) => {
    const labels = [...finding.values].flatMap(([value, label]) => (values.has(value) ? [label.toLowerCase()] : []));
    return `${finding.label.toLowerCase()} is ${listWords(labels)}`;
  };
}
