import { notJudged } from '../../problems/not_judged.ts';
import { type Problem, problemAt, type Report } from '../../problems/problem.ts';
import type { Module } from '../names/module.ts';
import { type Chunk, perChunk } from './chunks.ts';
import { type Assumption, type Flow, forEachFlow, innerLists, siteOf, type TogetherFlow } from './flow.ts';
import { both } from './lane-course.ts';
import { judgeLanes } from './lane-findings.ts';
import type { Things } from './things.ts';
import { wordBarred, wordClash, wordPause, wordTooFew } from './word-lanes.ts';

/** More lanes than this in one `together` are not compared: nobody has so many people. */
const MOST_LANES = 32;

/**
 * In parallel work a role does one step at a time, a pause is for everybody, there is somebody for each lane, and whoever a lane names may
 * do what stands in it.
 *
 * @param written the line of an event as it stands in the file
 */
export function checkRoles(
  { module, things }: { readonly module: Module; readonly things: Things },
  chunks: readonly Chunk[],
  written: (flow: Flow) => string,
  report: Report,
): void {
  for (const chunk of chunks)
    for (const item of withLanes(chunk)) {
      const problems = kept.get(item) ?? problemsIn(item, module, things.team, written);
      kept.set(item, problems);
      for (const problem of problems) report(problem);
    }
}

/** Problems of one event of a visit; events do not change, so they are worked out once. */
const kept = new WeakMap<Flow, readonly Problem[]>();

const withLanes = perChunk((chunk) =>
  chunk.items.filter((item) => {
    let found = false;
    forEachFlow([item], (flow) => {
      if (flow.type === 'together') found = true;
    });
    return found;
  }),
);

function problemsIn(
  item: Flow,
  module: Module,
  team: ReadonlySet<string>,
  written: (flow: Flow) => string,
): readonly Problem[] {
  const problems: Problem[] = [];
  // What stands in lanes inside lanes is looked at with those around it as well.
  const told = new Set<Flow>();
  const once = (flow: Flow, problem: () => Problem) => {
    if (told.has(flow)) return;
    told.add(flow);
    problems.push(problem());
  };
  forEachTogether([item], [], [], (together, asked, found) => {
    if (together.lanes.length > MOST_LANES) {
      const what = `who works in which of more than ${MOST_LANES} lanes side by side`;
      problems.push(problemAt(notJudged, siteOf(together), { what }));
      return;
    }
    const { clashes, pauses, tooFew, barred } = judgeLanes(together, asked, found, team);
    for (const clash of clashes) problems.push(wordClash(together, clash, team, written));
    for (const pause of pauses) once(pause.second.flow, () => wordPause(together, pause, written));
    for (const one of barred) once(one.flow, () => wordBarred(module, one, team));
    const short = tooFew && wordTooFew(together, tooFew);
    if (short) problems.push(short);
  });
  return problems;
}

/** Every `together` of a list, with the roles of what it stands in and what was found there. */
function forEachTogether(
  items: readonly Flow[],
  asked: readonly string[],
  found: readonly Assumption[],
  visit: (together: TogetherFlow, asked: readonly string[], found: readonly Assumption[]) => void,
): void {
  for (const flow of items) {
    if (flow.type === 'together') {
      visit(flow, asked, found);
      for (const lane of flow.lanes) forEachTogether(lane.items, lane.by.length > 0 ? lane.by : asked, found, visit);
    } else if (flow.type === 'decide')
      for (const { assumption, also, items: inner } of flow.branches)
        forEachTogether(inner, asked, both(found, [assumption, ...also]) ?? found, visit);
    else {
      const around = flow.type === 'call' && flow.by.length > 0 ? flow.by : asked;
      for (const inner of innerLists(flow)) forEachTogether(inner, around, found, visit);
    }
  }
}
