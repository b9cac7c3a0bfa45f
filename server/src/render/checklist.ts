import type { Expr } from '@curette/grammar';
import { type Checklist, type ChecklistThing, dimension, dimensionNamed } from '@curette/shared';
import type { FileFacts } from '../analysis/analysis.ts';
import type { CaseFacts } from '../analysis/cases/case.ts';
import { concerns } from '../analysis/cases/patient.ts';
import { isDose, isDosed } from '../analysis/kinds/dosed.ts';
import { valueWords } from '../analysis/kinds/value-words.ts';
import type { PropertyValue } from '../analysis/model.ts';
import type { Module } from '../analysis/names/module.ts';
import { listDuration } from '../analysis/protocol/durations.ts';
import type { ProtocolFacts, VisitFacts } from '../analysis/protocol/protocol.ts';
import type { Thing, ThingGroup } from '../analysis/protocol/things.ts';
import { inSets } from '../problems/words.ts';
import { checklistItems, roleWords, sayStep } from './checklist-steps.ts';
import { type Citations, createCitations } from './citations.ts';
import { datesOf, type VisitCalendar } from './dates.ts';
import { dutiesOf } from './due.ts';
import { clockNeeds } from './limits.ts';
import { type Lines, linesOf } from './lines.ts';
import { firstOf, sheetHeadOf } from './sheet-head.ts';
import { plain, sentence } from './text.ts';
import { datesWords } from './timeline-words.ts';
import { groundsOf } from './whom.ts';
import { conditionWords, durationWords, measureWords, thingWords } from './words.ts';

/**
 * The checklist of a protocol.
 * @param file the file that declares it
 * @param factsOf gives the facts of the files it uses: a protocol that stands on a faulty file is not fit for use either
 * @param ofCase the case whose facts are in the protocol, declared in `file`
 */
export function checklistOf(
  file: FileFacts,
  protocol: ProtocolFacts,
  factsOf: (id: string) => FileFacts | undefined,
  ofCase?: CaseFacts,
): Checklist {
  const { module } = protocol.context;
  const { statement } = protocol;
  const citations = createCitations(module);
  const lines = linesOf(file, protocol, factsOf);
  const items = statement.body?.items ?? [];
  const review = firstOf(statement, 'review');
  const approved = firstOf(statement, 'approved');
  const follows = firstOf(statement, 'follows')?.protocol?.text;
  const { sheet, problems } = sheetHeadOf(file, protocol, factsOf, ofCase);
  const groundOf = groundsOf(protocol);
  const sourceOf = (source: string | undefined, condition: Expr) => {
    const ground = source === undefined ? groundOf(condition) : undefined;
    return citations.number(source ?? ground?.source, ground?.place.file ?? module.id);
  };
  const warnings = (type: 'exclude' | 'caution') =>
    items.flatMap((item) =>
      item.type === type &&
      item.condition &&
      (type === 'exclude' || !ofCase || concerns(module, protocol.context.things, item.condition))
        ? [
            {
              line: lines(module.id, item),
              text: sentence(conditionWords(module, item.condition)),
              because: item.because?.value ?? null,
              source: sourceOf(item.source?.text, item.condition),
            },
          ]
        : [],
    );
  const head = {
    exclusions: warnings('exclude'),
    cautions: warnings('caution'),
    given: thingsOf(protocol, 'given', citations, lines),
    materials: thingsOf(protocol, 'materials', citations, lines),
    instruments: thingsOf(protocol, 'instruments', citations, lines),
  };
  return {
    ...sheet,
    summary: statement.doc ?? null,
    owner: firstOf(statement, 'owner')?.owner?.value ?? null,
    review: review?.every ? `every ${measureWords(module, review.every)}` : null,
    reviewed: firstOf(statement, 'reviewed')?.date?.text ?? null,
    approved: approved?.date
      ? [approved.date.text, approved.by && `by ${approved.by.value}`].filter(Boolean).join(' ')
      : null,
    follows: follows === undefined ? null : plain(follows),
    problems,
    team: [...protocol.context.things.team].map((role) => roleWords(module, role)),
    ...head,
    course: courseOf(protocol, citations, lines, calendarOf(ofCase)),
    sources: citations.all.map(({ name, citation }) => ({ name, citation })),
  };
}

/** The calendar that a case brings with it, if it says when it begins. */
export function calendarOf(ofCase: CaseFacts | undefined): VisitCalendar | undefined {
  return ofCase?.start && { ...ofCase.start, settings: ofCase.module.settings };
}

/** Visits, and the time between them. */
function courseOf(
  protocol: ProtocolFacts,
  citations: Citations,
  lines: Lines,
  calendar: VisitCalendar | undefined,
): Checklist['course'] {
  const { context, statement, visits } = protocol;
  const dates = calendar && datesOf(protocol, calendar);
  const { module } = context;
  const clocks = clockNeeds(
    visits.map((visit) => visit.items),
    (flow) => sayStep(module, flow),
  );
  const facts = new Map<number, VisitFacts>(visits.map((visit) => [visit.statement.id, visit]));
  return (statement.body?.items ?? []).flatMap((item): Checklist['course'] => {
    if (item.type === 'wait')
      return [
        {
          type: 'interval',
          line: lines(module.id, item),
          text: item.duration ? measureWords(module, item.duration) : '',
          because: item.because?.value ?? null,
          source: citations.number(item.source?.text, module.id),
        },
      ];
    const visit = facts.get(item.id);
    if (item.type !== 'visit' || !visit) return [];
    const duties = dutiesOf(visit, context, citations);
    return [
      {
        type: 'visit',
        line: lines(module.id, item),
        name: item.name?.text ?? '',
        label: item.label?.value ?? sentence(plain(item.name?.text ?? 'visit')),
        time: durationWords(listDuration(visit.items)) ?? null,
        dates: datesWords({ dates: dates?.get(item.id) ?? null }) ?? null,
        steps: checklistItems({ context, citations, clocks, duties, lines }, visit.items),
        due: duties.end(),
        carried: duties.carried(),
      },
    ];
  });
}

function thingsOf(protocol: ProtocolFacts, group: ThingGroup, citations: Citations, lines: Lines): ChecklistThing[] {
  const { things, module } = protocol.context;
  return [...things.byName.values()]
    .filter((thing) => thing.group === group)
    .map((thing) => ({
      line: thing.statement ? lines(module.id, thing.statement) : null,
      name: listedName(thing),
      is: thing.statement?.kind ? identity(thing) : null,
      amount: amountWords(module, thing),
      facts: [
        ...factsOfThing(thing, group).map((value) => ({
          name: plain(value.name),
          value: `${value.values.map(valueWords).join(', ')}${value.set ? inSets([value.set]) : ''}`,
          source: citations.number(value.ground.source, value.ground.place.file),
        })),
        ...conditionsOf(thing),
      ],
    }));
}

/** What is listed by its catalogue's name is called as the catalogue calls it. */
export function listedName(thing: Thing): string {
  return sentence(thing.statement?.kind ? thingWords(thing) : thing.label);
}

/** What is written with a thing where it is listed; in a case, what the case makes of it. */
export function amountWords(module: Module, { amount, statement }: Thing): string | null {
  if (amount) return valueWords(amount);
  return statement?.amount ? measureWords(module, statement.amount) : null;
}

/** What a thing is, unless its own name says so already. */
export function identity(thing: Thing): string | null {
  const is = thing.entry?.label ?? thing.kind.label;
  return is.toLowerCase() === thingWords(thing).toLowerCase() ? null : is;
}

/** Given things are told by what the protocol says of them; what is given in doses by those; the rest by their catalogue's name. */
function factsOfThing(thing: Thing, group: ThingGroup): PropertyValue[] {
  const stated = [...thing.values.values()].filter((value) => value.values.length > 0);
  if (group === 'given') return stated;
  return group === 'materials' && isDosed(thing.kind) ? stated.filter((value) => isAmountGiven(thing, value)) : [];
}

/** Whether a value says how much may be given. */
function isAmountGiven({ kind }: Thing, { name }: PropertyValue): boolean {
  const property = kind.properties.get(name);
  const { type } = property ?? {};
  return (
    property !== undefined &&
    (isDose(property) || (type?.form === 'quantity' && dimensionNamed(type.dimension) === dimension('mass')))
  );
}

/** What applies to the patient of a case: "has diabetes, smoking". */
function conditionsOf({ conditions }: Thing): ChecklistThing['facts'] {
  return (['has', 'takes', 'allergic to'] as const).flatMap((relation) => {
    const words = [...(conditions ?? [])].flatMap((one) =>
      one.startsWith(`${relation} `) ? [plain(one.slice(relation.length + 1))] : [],
    );
    return words.length > 0 ? [{ name: relation, value: words.join(', '), source: null }] : [];
  });
}
