import type { ProtocolStatement } from '@curette/grammar';
import { notJudged } from '../../problems/not_judged.ts';
import { problemAt, type Report } from '../../problems/problem.ts';
import { placeOf, type Rule, type RuleForm } from '../model.ts';
import type { Module } from '../names/module.ts';
import { bindings } from '../rules/pattern.ts';
import { type Chunk, perChunk } from './chunks.ts';
import { forEachFlow } from './flow.ts';
import { sharedThing } from './monitors.ts';
import type { Thing, Things } from './things.ts';

/** What is read but not judged yet is told in one notice, so that it cannot pass for checked. */
export function checkNotJudged(
  module: Module,
  statement: ProtocolStatement,
  rules: readonly Rule[],
  things: Things,
  chunks: readonly Chunk[],
  report: Report,
): void {
  const what: string[] = [];
  const items = statement.body?.items ?? [];
  if (items.some((item) => item.type === 'follows')) what.push('what the protocol it follows leaves behind');
  if (items.some((item) => item.type === 'review' || item.type === 'reviewed' || item.type === 'approved'))
    what.push('whether review and approval are current');
  const seen = chunks.map(seenIn);
  for (const rule of rules)
    for (const form of rule.forms)
      if (form.type === 'not judged' && form.verbs.some((verb) => seen.some((part) => part.verbs.has(verb))))
        what.push(`${form.about} (rule ${rule.name})`);
  for (const rule of rules)
    for (const form of rule.forms) {
      if (form.type !== 'between') continue;
      for (const thing of unlistedIn(form, things, chunks))
        what.push(
          `the time between two steps on ${thing.label}, which is not among the given facts (rule ${rule.name})`,
        );
    }
  if (what.length > 0)
    report(
      problemAt(notJudged, placeOf(module.id, statement, statement.name ?? statement.head), {
        what: [...new Set(what)].join('; '),
      }),
    );
}

/** Things that a rule about the time between two steps on the same thing cannot follow, because they are named but not listed. */
function unlistedIn(
  form: Extract<RuleForm, { type: 'between' }>,
  { byName }: Things,
  chunks: readonly Chunk[],
): ReadonlySet<Thing> {
  const found = new Set<Thing>();
  const same = sharedThing(form);
  if (!same) return found;
  const listed = new Set(byName.values());
  for (const chunk of chunks) {
    if (!seenIn(chunk).verbs.has(form.second.verb)) continue;
    forEachFlow(chunk.items, (flow) => {
      const action = flow.type === 'step' ? flow.step.action : undefined;
      if (flow.type !== 'step' || !action) return;
      for (const way of bindings(form.second, action, flow.step)) {
        const filling = way.get(same.name);
        if (filling?.type !== 'things') continue;
        for (const { thing } of filling.things) if (!listed.has(thing)) found.add(thing);
      }
    });
  }
  return found;
}

const seenIn = perChunk((chunk) => {
  const verbs = new Set<string>();
  forEachFlow(chunk.items, (flow) => {
    if (flow.type === 'step') verbs.add(flow.verb);
  });
  return { verbs };
});
