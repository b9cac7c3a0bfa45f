import type { ProtocolStatement } from '@curette/grammar';
import { notJudged } from '../../problems/not_judged.ts';
import { problemAt, type Report } from '../../problems/problem.ts';
import { placeOf, type Rule } from '../model.ts';
import type { Module } from '../names/module.ts';
import { type Chunk, perChunk } from './chunks.ts';
import { forEachFlow } from './flow.ts';

/** What is read but not judged yet is told in one notice, so that it cannot pass for checked. */
export function checkNotJudged(
  module: Module,
  statement: ProtocolStatement,
  rules: readonly Rule[],
  chunks: readonly Chunk[],
  report: Report,
): void {
  const what: string[] = [];
  const items = statement.body?.items ?? [];
  if (items.some((item) => item.type === 'follows')) what.push('what the protocol it follows leaves behind');
  if (items.some((item) => item.type === 'approved'))
    what.push('who may approve it, and whether it has changed since it was approved');
  const seen = chunks.map(seenIn);
  for (const rule of rules)
    for (const form of rule.forms)
      if (form.type === 'not judged' && form.verbs.some((verb) => seen.some((part) => part.verbs.has(verb))))
        what.push(`${form.about} (rule ${rule.name})`);
  if (what.length > 0)
    report(
      problemAt(notJudged, placeOf(module.id, statement, statement.name ?? statement.head), {
        what: [...new Set(what)].join('; '),
      }),
    );
}

const seenIn = perChunk((chunk) => {
  const verbs = new Set<string>();
  forEachFlow(chunk.items, (flow) => {
    if (flow.type === 'step') verbs.add(flow.verb);
  });
  return { verbs };
});
