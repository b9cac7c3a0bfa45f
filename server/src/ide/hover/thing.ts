import { formatQuantity } from '@curette/shared';
import { valueWords } from '../../analysis/kinds/value-words.ts';
import type { Track } from '../../analysis/model.ts';
import type { FlowId } from '../../analysis/protocol/flow.ts';
import { ageLimit } from '../../analysis/protocol/plan.ts';
import { type Possibilities, whenWords } from '../../analysis/protocol/possibility.ts';
import type { ProtocolFacts } from '../../analysis/protocol/protocol.ts';
import type { Thing } from '../../analysis/protocol/things.ts';
import { lineOf, spoken, withoutGrounds, writtenAt } from '../as-written.ts';
import type { Checked } from '../checked.ts';
import { capital, code, plainly } from '../markdown.ts';
import { type Standing, standingAfter, standingBefore } from '../states-at.ts';
import { stepStarts } from '../step-starts.ts';
import type { Surroundings } from '../surroundings.ts';
import { timeRangeWords, timeWords } from '../time-words.ts';
import { caution, needsCaution } from './caution.ts';
import { conversions } from './conversions.ts';
import { dutyLines } from './kinds.ts';
import { contraindicationList, gapWords, groundWords, valueList } from './values.ts';

/**
 * @param standing how things stand where it is asked, for a line that is being written; else as they do before the innermost statement,
 * and what that makes of them is told too
 */
export function thingHover(
  checked: Checked,
  around: Surroundings,
  thing: Thing,
  facts: ProtocolFacts,
  standing?: Standing,
): string[] {
  const { kind, entry } = thing;
  const contraindications = entry?.contraindications ?? kind.contraindications;
  const amount = thing.amount ? `, ${plainly(valueWords(thing.amount))}` : '';
  return [
    `**${plainly(spoken(thing.name))}**: ${plainly(entry ? `${entry.label}, ${kind.label}` : kind.label)}${amount}`,
    plainly(entry?.statement.doc ?? kind.statement.doc ?? ''),
    stateLines(checked, around, thing, facts, standing),
    ageLines(checked, thing, facts),
    dutyLines(checked, kind),
    thing.amount?.type === 'quantity'
      ? conversions(thing.amount.quantity, thing.values, around.module.units()).join('\n')
      : '',
    valueList(checked, thing.values.values(), kind),
    gapWords(thing.gaps.values()),
    contraindicationList(checked, contraindications),
    caution(needsCaution(kind, contraindications.length)),
  ];
}

/** What state it is in where the cursor stands, since when, and what the step makes of it. */
function stateLines(
  checked: Checked,
  around: Surroundings,
  thing: Thing,
  facts: ProtocolFacts,
  standing: Standing | undefined,
): string {
  const before = standing ?? standingBefore(facts, around.path);
  if (!before) return '';
  const after = standing ? undefined : standingAfter(facts, around.path);
  return thing.kind.tracks
    .map((track) => `${hereWords(checked, facts, before.of(thing, track))}${afterWords(thing, track, before, after)}`)
    .join('\n\n');
}

function hereWords(checked: Checked, facts: ProtocolFacts, possibilities: Possibilities): string {
  const [only] = possibilities;
  if (possibilities.length === 1 && only)
    return `Here: **${plainly(spoken(only.state))}**${sinceWords(checked, facts, only.since)}.`;
  const paths = possibilities.map(
    ({ state, since, when }) =>
      `- ${when.length > 0 ? `when ${plainly(whenWords(when))}: ` : ''}**${plainly(spoken(state))}**${sinceWords(checked, facts, since)}`,
  );
  return `Here it depends on the path:\n${paths.join('\n')}\n`;
}

function sinceWords(checked: Checked, facts: ProtocolFacts, since: FlowId | undefined): string {
  const flow = since === undefined ? undefined : facts.flow(since);
  if (!flow) return ' from the beginning';
  const { file, statement, span } = flow.call ?? {
    file: flow.file,
    statement: flow.statement.id,
    span: flow.statement.head,
  };
  const line = lineOf(checked, file, statement);
  const text = flow.call
    ? lineText(checked, file, statement)
    : withoutGrounds(writtenAt(checked, file, statement, span));
  const where = [line === undefined ? '' : `line ${line}`, beginsWords(facts, since)].filter((words) => words !== '');
  return ` since ${code(text)}${where.length === 0 ? '' : ` (${where.join(', ')})`}`;
}

/** When the step that brought the state about can begin, from the beginning of its visit. */
function beginsWords(facts: ProtocolFacts, since: FlowId | undefined): string {
  for (const visit of since === undefined ? [] : facts.visits) {
    const start = since === undefined ? undefined : stepStarts(facts, visit)(since);
    // What begins a visit says so by standing first.
    if (!start || start.hi === 0) continue;
    if (Number.isFinite(start.hi)) return `begins ${timeRangeWords(start.lo, start.hi)} into the visit`;
    return start.lo > 0 ? `begins from ${timeWords(start.lo, 'down')} into the visit` : '';
  }
  return '';
}

/** The whole line that calls a procedure. */
function lineText(checked: Checked, file: string, statement: number): string {
  return withoutGrounds(writtenAt(checked, file, statement, { start: 0, end: 200 }).split('\n')[0] ?? '');
}

function afterWords(thing: Thing, track: Track, before: Standing, after: Standing | undefined): string {
  if (!after) return '';
  const states = (standing: Standing) => [...new Set(standing.of(thing, track).map(({ state }) => state))];
  const then = states(after);
  if (then.length !== 1 || states(before).join() === then.join()) return '';
  return ` Afterwards: **${plainly(spoken(then[0] ?? ''))}**.`;
}

/** How long its states last. */
function ageLines(checked: Checked, thing: Thing, facts: ProtocolFacts): string {
  return thing.kind.ages
    .map(({ state, then, ground }) => {
      const lasts = ageLimit(facts.context.lowering.scope, thing, state);
      if (!lasts) return '';
      const limit = `${capital(spoken(state))} lasts at most ${formatQuantity(lasts.limit)}`;
      return `${plainly(limit)}${then === undefined ? '' : `, then ${plainly(spoken(then))}`}.${groundWords(checked, ground)}`;
    })
    .filter((line) => line !== '')
    .join('\n\n');
}
