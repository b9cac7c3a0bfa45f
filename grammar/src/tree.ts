/**
 * The syntax tree of a `.curette` file.
 *
 * A file is a list of **statements**; a statement is a head (one line, or a line and its continuations) and, for some, a
 * body in braces that holds statements again. The tree is a value: meaning lives beside it, keyed by statement.
 *
 * **Every offset inside a statement counts from the start of that statement**, and a body keeps where each of its
 * statements starts, counted from the start of the statement that owns the body. So a change in one line makes new
 * nodes for that line and the bodies around it only; every other statement stays the same object, wherever it moved.
 *
 * Anything a half-typed line leaves out is `undefined`; the types say so.
 */

/** Half-open range of UTF-16 offsets, counted from the start of the enclosing statement. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** A name as written. */
export interface Name extends Span {
  readonly text: string;
}

/** A quoted text; `value` has its escapes resolved, the span includes the quotes. */
export interface Text extends Span {
  readonly type: 'text';
  readonly value: string;
}

/** Something in the source that could not be read as the language. One sentence is worded from it later. */
export interface Flaw extends Span {
  readonly code:
    | 'unreadable' // the line does not fit; `expected` says what would, in plain words
    | 'unclosed_text' // a quoted text runs to the end of its line
    | 'unclosed_block' // `{` without its `}`
    | 'stray_close' // `}` that closes nothing
    | 'merge_marker' // left by a merge of two versions
    | 'foreign_sign' // a sign of programming languages: `==`, `&&`, `;` …; `expected` is what is written here instead
    | 'misplaced' // a line read as what it is, but it belongs elsewhere: `expected` says where, e.g. `inside a visit`
    | 'too_deep'; // blocks or brackets nested beyond what anyone would write
  readonly expected: string | undefined;
}

// ── values ──────────────────────────────────────────────────────────────────────────────────────────────────────────

/** A unit as written, e.g. `N.cm`, `mg/mL`, `/min`, `%`, `cartridges`. */
export interface UnitName extends Span {
  readonly text: string;
}

export interface Measure extends Span {
  readonly value: number;
  readonly unit: UnitName | undefined;
}

/**
 * `10 min`, `10..40 min`, `10 min..1 h`, `at least 10 min`, `at most 35 N.cm`, `exactly 5 min`, `1:100000`.
 * plain: only `low`; range: both (a unit only on `high` counts for both); at least: only `low`; at most: only `high`;
 * exactly: only `low`; ratio: `low` to `high`.
 */
export interface QuantityNode extends Span {
  readonly type: 'quantity';
  readonly form: 'plain' | 'range' | 'at least' | 'at most' | 'exactly' | 'ratio';
  readonly low: Measure | undefined;
  readonly high: Measure | undefined;
}

/** `15 mm by 20 mm`; two sides or more. */
export interface SizeNode extends Span {
  readonly type: 'size';
  readonly sides: readonly QuantityNode[];
}

/** `graft`, `g.soak.longest` */
export interface PathNode extends Span {
  readonly type: 'path';
  readonly names: readonly Name[];
}

export interface YesNoNode extends Span {
  readonly type: 'yes or no';
  readonly value: boolean;
}

export type Relation = 'has' | 'takes' | 'allergic to';

export type Expr =
  | PathNode
  | QuantityNode
  | SizeNode
  | Text
  | YesNoNode
  | ({ readonly type: 'and' | 'or'; readonly left: Expr; readonly right: Expr | undefined } & Span)
  | ({ readonly type: 'not'; readonly operand: Expr | undefined } & Span)
  | ({
      readonly type: 'compare';
      readonly op: '<' | '<=' | '>' | '>=' | '=' | 'within';
      readonly left: Expr;
      readonly right: Expr | undefined;
    } & Span)
  | ({
      readonly type: 'arithmetic';
      readonly op: '+' | '-' | '*' | '/';
      readonly left: Expr;
      readonly right: Expr | undefined;
    } & Span)
  /** `p is graft_surface`, `p is not soft_tissue`, `g is wetted for 10 min`; what the name is, is found by meaning. */
  | ({
      readonly type: 'is';
      readonly subject: Expr;
      readonly negated: boolean;
      readonly name: Name | undefined;
      readonly for: Expr | undefined;
    } & Span)
  /** `g wetted for g.soak`, `s debrided` (in `needs`) */
  | ({
      readonly type: 'state';
      readonly subject: PathNode;
      readonly state: Name;
      readonly for: Expr | undefined;
    } & Span)
  /** `patient has acute_infection`, `patient takes anticoagulant`, `patient allergic to penicillin` */
  | ({
      readonly type: 'relation';
      readonly relation: Relation;
      readonly subject: Expr;
      readonly value: Name | undefined;
    } & Span)
  /** `min(a, b)`, `max(a, b)`, `count(a)`, `sum(a)`; and `total d`, written as a call of one */
  | ({ readonly type: 'call'; readonly name: Name; readonly args: readonly Expr[] } & Span);

/** `source NAME` and `because "…"`, which may end any line that states a fact or a limit. */
export interface Grounds {
  readonly source: Name | undefined;
  readonly because: Text | undefined;
}

// ── slots and patterns ──────────────────────────────────────────────────────────────────────────────────────────────

/** `with (one or more extraction_instrument tool)`; in an action's or procedure's head, and in a rule's pattern. */
export interface Slot extends Span {
  readonly preposition: Name | undefined;
  readonly optional: boolean;
  readonly many: boolean;
  /** a kind, or a quantity's name (`volume`, `size`, `count`, `rotational speed`) */
  readonly kind: Name | undefined;
  readonly name: Name | undefined;
}

/**
 * A step as a rule looks for it: `lay (holding_membrane m) on (place p) where …`, `pause time_out`, `verify depth of (socket s)`,
 * `record photograph of (tooth t)`, `finding wall is thin or lost`, `stop`; or one of several, joined by `or`
 */
export interface Pattern extends Span {
  readonly sort: 'step' | 'pause' | 'verify' | 'record' | 'finding' | 'stop';
  /** the verb; else the pause's name, the property measured, what is recorded, the finding's name */
  readonly verb: Name | undefined;
  /** of what is measured or recorded: the one after `of` */
  readonly slots: readonly Slot[];
  /** of a finding: one of these is found */
  readonly values: readonly Name[];
  readonly where: Expr | undefined;
  /** what does as well */
  readonly others: readonly Pattern[];
}

export type Scope = 'visit' | 'protocol';

/** What a property may hold. */
export type PropertyType =
  | ({ readonly form: 'quantity'; readonly dimension: string; readonly range: boolean } & Span)
  | ({ readonly form: 'size' | 'yes or no' | 'text' | 'number' } & Span)
  /** `one of a, b` or `one of 11..18, 21..28`: `values` are words or numbers as written, number ranges expanded */
  | ({ readonly form: 'one of' | 'any of'; readonly values: readonly Name[] } & Span)
  | ({ readonly form: 'kind'; readonly kind: Name } & Span);

// ── statements ──────────────────────────────────────────────────────────────────────────────────────────────────────

export type Container =
  | 'file'
  | 'kind'
  | 'properties'
  | 'action'
  | 'rule'
  | 'source'
  | 'finding'
  | 'pause'
  | 'protocol'
  | 'things'
  | 'team'
  | 'steps'
  | 'options'
  | 'lanes'
  | 'case'
  | 'figures'
  | 'figure';

export interface Body {
  readonly container: Container;
  /** offset of `{`, or of where it is missing, from the owning statement's start; -1 in a file */
  readonly open: number;
  /** offset of `}`, from the owning statement's start; undefined when it is missing or in a file */
  readonly close: number | undefined;
  readonly items: readonly Statement[];
  /** where each item starts, from the owning statement's start (in a file: from the file's start) */
  readonly offsets: readonly number[];
}

interface Base {
  /** Names a place in the file; kept when the statement is parsed anew after a change inside it. Unique in a file. */
  readonly id: number;
  /** UTF-16 length from the first character (of its `///` lines, if any) to the last one of its head or body */
  readonly length: number;
  /** the head: first word to last word, without doc comment, without body */
  readonly head: Span;
  /** `///` lines above, joined by newlines, marks removed */
  readonly doc: string | undefined;
  readonly flaws: readonly Flaw[];
  readonly body: Body | undefined;
}

/** `use std/oral`, `use ../shared/policy` */
export interface UseStatement extends Base {
  readonly type: 'use';
  /** as written, without spaces */
  readonly path: Name | undefined;
}

/** `unit drop, drops is 0.05 mL`, `unit cartridge, cartridges is count` */
export interface UnitStatement extends Base {
  readonly type: 'unit';
  readonly names: readonly Name[];
  /** a quantity, or undefined for `is count` */
  readonly value: QuantityNode | undefined;
  readonly count: boolean;
}

/** `kind graft "bone graft" is material { … }`; body container `kind` */
export interface KindStatement extends Base {
  readonly type: 'kind';
  readonly name: Name | undefined;
  readonly label: Text | undefined;
  readonly parent: Name | undefined;
}

/** `material cortical_allograft "…" is graft { … }`: first word any kind; body container `properties` */
export interface EntryStatement extends Base {
  readonly type: 'entry';
  /** the first word */
  readonly group: Name;
  readonly name: Name | undefined;
  readonly label: Text | undefined;
  /** after `is`; undefined when the first word alone is its kind */
  readonly kind: Name | undefined;
}

/** `action pack "…" (graft g) into (site s) with (condenser) { … }`; body container `action` */
export interface ActionStatement extends Base {
  readonly type: 'action';
  readonly verb: Name | undefined;
  readonly label: Text | undefined;
  readonly slots: readonly Slot[];
}

/** head as an action's; body container `steps` */
export interface ProcedureStatement extends Base {
  readonly type: 'procedure';
  readonly verb: Name | undefined;
  readonly label: Text | undefined;
  readonly slots: readonly Slot[];
}

/** body container `rule` */
export interface RuleStatement extends Base {
  readonly type: 'rule';
  readonly name: Name | undefined;
  readonly label: Text | undefined;
}

/** `source safe_surgery_checklist "Title" { by "…", year 2009 }`; body container `source` */
export interface SourceStatement extends Base {
  readonly type: 'source';
  readonly name: Name | undefined;
  readonly label: Text | undefined;
}

/** `finding buccal_wall "Buccal wall" { intact, lost "Lost" }`; body container `finding` */
export interface FindingStatement extends Base {
  readonly type: 'finding';
  readonly name: Name | undefined;
  readonly label: Text | undefined;
}

/** `pause time_out "Before extraction or incision" { item "…" }`; body container `pause` */
export interface PauseStatement extends Base {
  readonly type: 'pause';
  readonly name: Name | undefined;
  readonly label: Text | undefined;
}

/** body container `protocol` */
export interface ProtocolStatement extends Base {
  readonly type: 'protocol';
  readonly name: Name | undefined;
  readonly label: Text | undefined;
}

/** `case first_molar of ridge_preservation { … }`; body container `case` */
export interface CaseStatement extends Base {
  readonly type: 'case';
  readonly name: Name | undefined;
  readonly label: Text | undefined;
  readonly of: Name | undefined;
}

/** in a case: `start 2027-03-01`, the day of the first visit; as written, ISO 8601 */
export interface StartStatement extends Base {
  readonly type: 'start';
  readonly date: Name | undefined;
}

/** `figures label_ceilings "Ceilings on labels" of ceilings { … }`: one of the sets of a group; body container `figures` */
export interface FiguresStatement extends Base {
  readonly type: 'figures';
  readonly name: Name | undefined;
  readonly label: Text | undefined;
  readonly group: Name | undefined;
}

/** in a set of figures, `articaine { ceiling 500 mg }`: what the set says of an entry or a kind; body container `figure` */
export interface FigureStatement extends Base {
  readonly type: 'figure';
  readonly name: Name;
}

/** `apply label_ceilings because "…"`: of its group, this set counts here and wherever the file is used */
export interface ApplyStatement extends Base, Grounds {
  readonly type: 'apply';
  readonly name: Name | undefined;
}

// in a kind

/** `particle : length range within 1 um..5 mm`, `ceiling : mass from ceilings` */
export interface PropertyStatement extends Base, Grounds {
  readonly type: 'property';
  readonly name: Name;
  readonly value: PropertyType | undefined;
  /** outside this, a value is taken for a slip */
  readonly within: QuantityNode | undefined;
  /** the group of sets of figures that its value comes from */
  readonly from: Name | undefined;
}

/** `states dry -> wetted -> packed, wetted -> dried_out, any -> discarded` */
export interface StatesStatement extends Base {
  readonly type: 'states';
  readonly chains: readonly (readonly Name[])[];
}

/** `wetted lasts at most soak.longest, then dried_out` */
export interface LastsStatement extends Base, Grounds {
  readonly type: 'lasts';
  readonly state: Name;
  readonly atMost: Expr | undefined;
  readonly then: Name | undefined;
}

/** `must end packed or discarded by end of visit`, `… by end of protocol`, `… before pause sign_out` */
export interface MustEndStatement extends Base, Grounds {
  readonly type: 'must end';
  readonly states: readonly Name[];
  readonly by: 'end of visit' | 'end of protocol' | 'pause' | undefined;
  readonly pause: Name | undefined;
}

/** `serves as graft_surface`: where a place is asked for, a thing of this kind stands as one of that kind */
export interface ServesAsStatement extends Base {
  readonly type: 'serves as';
  readonly kind: Name | undefined;
}

/** in a kind: which values there are (`has acute_infection, pregnancy`); in a case or given thing: which apply */
export interface RelationStatement extends Base {
  readonly type: 'relation';
  readonly relation: Relation;
  readonly values: readonly Name[];
}

/** `contraindicated when patient allergic to bovine_collagen because "…" source …` (in a kind, an entry or an action) */
export interface ContraindicatedStatement extends Base, Grounds {
  readonly type: 'contraindicated';
  readonly condition: Expr | undefined;
}

// property values: in an entry, a given thing, a source, a case, a set of figures

/** `soak 10..60 min source common_practice`, `tooth site`, `year 2009`, `needles 1, 2`; in a case may own a body */
export interface ValueStatement extends Base, Grounds {
  readonly type: 'value';
  readonly name: Name;
  readonly values: readonly Expr[];
}

// in an action

/** `needs g wetted for g.soak, s debrided because "…"` */
export interface NeedsStatement extends Base, Grounds {
  readonly type: 'needs';
  readonly conditions: readonly Expr[];
}

/** `makes g packed, s filled` */
export interface MakesStatement extends Base {
  readonly type: 'makes';
  readonly effects: readonly { readonly subject: PathNode; readonly state: Name | undefined }[];
}

/** `uses up c at least g.amount`, `uses up d v`, `uses up g` (all of it) */
export interface UsesUpStatement extends Base {
  readonly type: 'uses up';
  readonly thing: PathNode | undefined;
  readonly bound: 'at least' | 'at most' | undefined;
  readonly amount: Expr | undefined;
}

/** `takes 1..2 min usually 1 min` */
export interface TakesStatement extends Base, Grounds {
  readonly type: 'takes';
  readonly duration: QuantityNode | undefined;
  readonly usually: QuantityNode | undefined;
}

/** `by surgeon, assistant` in an action or pause: who may do it */
export interface ByStatement extends Base {
  readonly type: 'by';
  readonly roles: readonly Name[];
}

// in a rule

export interface WheneverStatement extends Base {
  readonly type: 'whenever';
  readonly pattern: Pattern | undefined;
  readonly where: Expr | undefined;
}

export interface ExpectStatement extends Base {
  readonly type: 'expect';
  readonly condition: Expr | undefined;
}

/** `between pack (graft g) and place (implant i) at least 4 mo` */
export interface BetweenStatement extends Base {
  readonly type: 'between';
  readonly first: Pattern | undefined;
  readonly second: Pattern | undefined;
  readonly bound: QuantityNode | undefined;
  /** `at least i.healing`: what a thing's property says, instead of `bound` */
  readonly property: ({ readonly side: 'at least' | 'at most' | 'exactly'; readonly value: Expr } & Span) | undefined;
}

/** `for each drug d given in a visit`, `for all drug d given in a visit where patient has …` */
export interface ForEachStatement extends Base {
  readonly type: 'for each';
  /** `for all`: over all of them together, not for each by itself */
  readonly together: boolean;
  readonly kind: Name | undefined;
  readonly name: Name | undefined;
  readonly how: 'given' | 'used' | undefined;
  readonly scope: Scope | undefined;
  /** asks only where this may be so */
  readonly where: Expr | undefined;
}

/** `order A before B`, `order A only after B`, `order A first in a visit`, `order A last in the protocol` */
export interface OrderStatement extends Base {
  readonly type: 'order';
  readonly first: Pattern | undefined;
  readonly only: boolean;
  readonly relation: 'before' | 'after' | 'first' | 'last' | undefined;
  readonly second: Pattern | undefined;
  readonly scope: Scope | undefined;
}

/** `count A exactly once in a visit`, `at most 2 times`, `at least once`, `never`; never is at most 0 */
export interface CountStatement extends Base {
  readonly type: 'count';
  readonly pattern: Pattern | undefined;
  readonly bound: 'exactly' | 'at least' | 'at most' | undefined;
  readonly times: number | undefined;
  readonly scope: Scope | undefined;
}

/** `pause time_out before incise (tissue)`: a visit that has the action has the pause, before or after it */
export interface PauseRuleStatement extends Base {
  readonly type: 'pause rule';
  readonly pause: Name | undefined;
  readonly relation: 'before' | 'after' | undefined;
  readonly pattern: Pattern | undefined;
}

/** `every anaesthetic declares concentration, ceiling` */
export interface EveryStatement extends Base {
  readonly type: 'every';
  readonly kind: Name | undefined;
  readonly properties: readonly Name[];
}

export interface SeverityStatement extends Base {
  readonly type: 'severity';
  readonly level: Name | undefined;
}

export interface WhyStatement extends Base {
  readonly type: 'why';
  readonly text: Text | undefined;
}

/** `source NAME` on a line of its own: in a rule, action, pause, kind */
export interface SourceRefStatement extends Base {
  readonly type: 'source reference';
  readonly source: Name | undefined;
}

/** `replaces NAME`: in a rule */
export interface ReplacesStatement extends Base {
  readonly type: 'replaces';
  readonly rule: Name | undefined;
}

// in a finding, a pause, a team

export interface FindingValueStatement extends Base {
  readonly type: 'finding value';
  readonly name: Name;
  readonly label: Text | undefined;
}

/** `item "Allergies asked and answered"` in a pause, declared or in use */
export interface ItemStatement extends Base {
  readonly type: 'item';
  readonly text: Text | undefined;
}

export interface RoleStatement extends Base {
  readonly type: 'team member';
  readonly name: Name;
}

// in a protocol

export interface VersionStatement extends Base {
  readonly type: 'version';
  readonly version: Name | undefined;
}
export interface StatusStatement extends Base {
  readonly type: 'status';
  readonly status: Name | undefined;
}
export interface OwnerStatement extends Base {
  readonly type: 'owner';
  readonly owner: Text | undefined;
}
/** `review every 12 mo` */
export interface ReviewStatement extends Base {
  readonly type: 'review';
  readonly every: QuantityNode | undefined;
}
/** `reviewed 2026-02-01`, `approved 2026-02-03 by "Teaching committee"`; date as written, ISO 8601 */
export interface DatedStatement extends Base {
  readonly type: 'reviewed' | 'approved';
  readonly date: Name | undefined;
  readonly by: Text | undefined;
}
export interface FollowsStatement extends Base {
  readonly type: 'follows';
  readonly protocol: Name | undefined;
}
/** `exclude when …`, `caution when …`; the latter in a kind, an entry or an action as well */
export interface WarningStatement extends Base, Grounds {
  readonly type: 'exclude' | 'caution';
  readonly condition: Expr | undefined;
}
/** body container `things` */
export interface ThingsStatement extends Base {
  readonly type: 'given' | 'materials' | 'instruments';
}
/** body container `team` */
export interface TeamStatement extends Base {
  readonly type: 'team';
}
/**
 * `graft : cortical_allograft 0.5 mL`, `socket : socket { depth 9..12 mm }`, `periotome` (in instruments: its own kind or
 * entry), body container `properties`
 */
export interface ThingStatement extends Base, Grounds {
  readonly type: 'thing';
  readonly name: Name;
  readonly kind: Name | undefined;
  readonly amount: QuantityNode | SizeNode | undefined;
}
/** `visit surgery "Extraction and graft" { … }`; body container `steps` */
export interface VisitStatement extends Base {
  readonly type: 'visit';
  readonly name: Name | undefined;
  readonly label: Text | undefined;
}

// in a visit

/** `takes 10..40 min usually 20 min` at the end of a line; its span begins with `takes`. */
export interface TakesClause extends Span {
  readonly duration: QuantityNode | undefined;
  readonly usually: QuantityNode | undefined;
}

/** What a step, pause, wait, check, decision … says about itself at its end. */
export interface Clauses extends Grounds {
  readonly takes: TakesClause | undefined;
  readonly by: readonly Name[];
}

/** One thing, amount or text in a step: `numbing 1.7 mL`, `9 mm by 8 mm`, `"until clear"` */
export interface Argument extends Span {
  readonly thing: PathNode | undefined;
  readonly amount: QuantityNode | SizeNode | undefined;
  readonly text: Text | undefined;
}

/** The things one preposition introduces; the first part has none. `arguments` is empty while half typed. */
export interface StepPart extends Span {
  readonly preposition: Name | undefined;
  readonly arguments: readonly Argument[];
}

/** `pack graft into socket with condenser in 4 increments takes 5..10 min` */
export interface StepStatement extends Base, Clauses {
  readonly type: 'step';
  readonly verb: Name;
  readonly parts: readonly StepPart[];
}

/** `pause sign_in`, with items of its own in a body of container `pause` */
export interface PauseStepStatement extends Base, Clauses {
  readonly type: 'pause step';
  readonly name: Name | undefined;
}

/** `wait 10 min`, `wait until graft is wetted for 10 min`; between visits `wait 4..6 mo` */
export interface WaitStatement extends Base, Grounds {
  readonly type: 'wait';
  readonly duration: QuantityNode | undefined;
  readonly until: Expr | undefined;
}

/** `verify depth of socket within 9..12 mm otherwise { … }`, `verify "Lies flat" otherwise "Lift and lay again"` */
export interface VerifyStatement extends Base, Clauses {
  readonly type: 'verify';
  readonly what: Name | Text | undefined;
  readonly of: PathNode | undefined;
  readonly within: QuantityNode | SizeNode | undefined;
  /** true when `otherwise` is written; then `otherwiseText` or a body (container `steps`) */
  readonly otherwise: boolean;
  readonly otherwiseText: Text | undefined;
}

/** `decide buccal_wall, phenotype "Probe …" { option … }`; body container `options` */
export interface DecideStatement extends Base, Clauses {
  readonly type: 'decide';
  readonly findings: readonly Name[];
  readonly label: Text | undefined;
}

/** `option intact or thin, any "…" { … }`: for each finding the values it takes; body container `steps` */
export interface OptionStatement extends Base {
  readonly type: 'option';
  readonly values: readonly (readonly Name[])[];
  readonly label: Text | undefined;
}
/** `otherwise { … }` in a decision: all that no option names; body container `steps` */
export interface OtherwiseStatement extends Base {
  readonly type: 'otherwise';
}

/** `instruct "Bite on gauze for 30 min" at home` */
export interface InstructStatement extends Base, Clauses {
  readonly type: 'instruct';
  readonly text: Text | undefined;
  readonly atHome: boolean;
}

/** `record photograph "Occlusal view" of site` */
export interface RecordStatement extends Base, Clauses {
  readonly type: 'record';
  readonly what: Name | undefined;
  readonly text: Text | undefined;
  readonly of: PathNode | undefined;
}

/** body container `lanes` */
export interface TogetherStatement extends Base {
  readonly type: 'together';
}
/** `lane chairside "…" by assistant { … }`; body container `steps` */
export interface LaneStatement extends Base {
  readonly type: 'lane';
  readonly name: Name | undefined;
  readonly label: Text | undefined;
  readonly by: readonly Name[];
}

/** `repeat until "bleeding stops" at most 3 times { … }`; body container `steps` */
export interface RepeatStatement extends Base {
  readonly type: 'repeat';
  readonly until: Expr | undefined;
  readonly atMost: number | undefined;
}

/** `complication "Root tip breaks" { … }`; body container `steps` */
export interface ComplicationStatement extends Base {
  readonly type: 'complication';
  readonly label: Text | undefined;
}

/** `note "…"`, anywhere */
export interface NoteStatement extends Base {
  readonly type: 'note';
  readonly text: Text | undefined;
}

/** `stop "Refer"`: this path ends here */
export interface StopStatement extends Base {
  readonly type: 'stop';
  readonly text: Text | undefined;
}

/** A line that no form fits; its body, if it has one, is read by what it looks like. */
export interface UnreadableStatement extends Base {
  readonly type: 'unreadable';
}

export type Declaration =
  | UseStatement
  | UnitStatement
  | KindStatement
  | EntryStatement
  | ActionStatement
  | ProcedureStatement
  | RuleStatement
  | SourceStatement
  | FindingStatement
  | PauseStatement
  | ProtocolStatement
  | CaseStatement
  | FiguresStatement
  | ApplyStatement;

export type VisitItem =
  | StepStatement
  | PauseStepStatement
  | WaitStatement
  | VerifyStatement
  | DecideStatement
  | InstructStatement
  | RecordStatement
  | TogetherStatement
  | RepeatStatement
  | ComplicationStatement
  | NoteStatement
  | StopStatement;

export type Statement =
  | Declaration
  | VisitItem
  | FigureStatement
  | PropertyStatement
  | StatesStatement
  | LastsStatement
  | MustEndStatement
  | ServesAsStatement
  | RelationStatement
  | ContraindicatedStatement
  | ValueStatement
  | NeedsStatement
  | MakesStatement
  | UsesUpStatement
  | TakesStatement
  | ByStatement
  | WheneverStatement
  | ExpectStatement
  | BetweenStatement
  | ForEachStatement
  | OrderStatement
  | CountStatement
  | PauseRuleStatement
  | EveryStatement
  | SeverityStatement
  | WhyStatement
  | SourceRefStatement
  | ReplacesStatement
  | FindingValueStatement
  | ItemStatement
  | RoleStatement
  | VersionStatement
  | StatusStatement
  | OwnerStatement
  | ReviewStatement
  | DatedStatement
  | FollowsStatement
  | WarningStatement
  | ThingsStatement
  | TeamStatement
  | ThingStatement
  | VisitStatement
  | OptionStatement
  | OtherwiseStatement
  | LaneStatement
  | UnreadableStatement
  | StartStatement;

/** The statement whose `type` may be `T`. */
export type StatementOf<T extends Statement['type']> = Statement extends infer S
  ? S extends { readonly type: unknown }
    ? T extends S['type']
      ? S
      : never
    : never
  : never;

/** A whole file. */
export interface SyntaxTree {
  readonly length: number;
  /** container `file`, open -1, close undefined */
  readonly body: Body;
  /** flaws outside any statement (a stray `}`), counted from the file's start */
  readonly flaws: readonly Flaw[];
  /** braces pair and no block is nested too deep: then `reparse` can read a change alone */
  readonly sound: boolean;
  /** the number a new statement would get */
  readonly nextId: number;
}
