/**
 * What declarations mean, once names are resolved. Everything here is plain data; where it was declared stays attached, so that
 * problems and the editor can point to it.
 */
import type {
  ActionStatement,
  ApplyStatement,
  CaseStatement,
  EntryStatement,
  Expr,
  FigureStatement,
  FiguresStatement,
  FindingStatement,
  KindStatement,
  Pattern,
  PauseStatement,
  ProcedureStatement,
  PropertyType,
  ProtocolStatement,
  Relation,
  RuleStatement,
  SourceStatement,
  Span,
  Statement,
  UnitStatement,
} from '@curette/grammar';
import type { Dimension, Quantity } from '@curette/shared';
import type { FileId, Place, Severity } from '../problems/problem.ts';

export interface Declared<S extends Statement> {
  readonly file: FileId;
  readonly statement: S;
}

/** Why a limit stands: the source's name as written, the reason as written. */
export interface Ground {
  readonly source: string | undefined;
  readonly because: string | undefined;
  readonly place: Place;
}

export interface Kind extends Declared<KindStatement> {
  readonly name: string;
  readonly label: string;
  readonly parent: Kind | undefined;
  /** own and inherited, by name */
  readonly properties: ReadonlyMap<string, Property>;
  /** own and inherited */
  readonly tracks: readonly Track[];
  readonly ages: readonly AgeLimit[];
  readonly duties: readonly Duty[];
  readonly servesAs: readonly Kind[];
  /** the closed sets that `has`, `takes`, `allergic to` may ask about */
  readonly relations: Readonly<Record<Relation, ReadonlySet<string>>>;
  readonly contraindications: readonly Contraindication[];
}

export interface Property {
  readonly name: string;
  readonly type: PropertyType | undefined;
  readonly within: Quantity | undefined;
  readonly ground: Ground;
  readonly owner: string;
  /** the group of sets of figures that its value comes from */
  readonly from: string | undefined;
}

/** States of which a thing has exactly one at a time. */
export interface Track {
  /** unique within a kind and its heirs: the initial state's name */
  readonly name: string;
  readonly initial: string;
  readonly states: ReadonlySet<string>;
  readonly moves: ReadonlyMap<string, ReadonlySet<string>>;
}

/** `wetted lasts at most …, then dried_out` */
export interface AgeLimit {
  readonly state: string;
  readonly atMost: Expr;
  readonly then: string | undefined;
  readonly ground: Ground;
}

/** `must end packed or discarded by end of visit` */
export interface Duty {
  readonly states: readonly string[];
  readonly by: 'end of visit' | 'end of protocol' | 'pause';
  readonly pause: string | undefined;
  readonly ground: Ground;
}

/** `contraindicated when …`, or `caution when …` */
export interface Contraindication {
  readonly condition: Expr;
  /** not for them at all, or with particular care */
  readonly strictly: boolean;
  readonly ground: Ground;
}

export type Value =
  | { readonly type: 'quantity'; readonly quantity: Quantity }
  | { readonly type: 'size'; readonly sides: readonly Quantity[] }
  | { readonly type: 'number'; readonly value: number }
  | { readonly type: 'yes or no'; readonly value: boolean }
  | { readonly type: 'text'; readonly value: string }
  /** a member of a closed set, an entry, a kind or a thing of the protocol */
  | { readonly type: 'name'; readonly name: string };

export interface PropertyValue {
  readonly name: string;
  readonly values: readonly Value[];
  readonly ground: Ground;
  /** the set of figures that it comes from */
  readonly set?: SetNote | undefined;
}

/** A set of figures as a person is told of it. */
export interface SetNote {
  readonly name: string;
  readonly label: string;
  readonly group: string;
}

/** One of several sets of figures that disagree. */
export interface FigureSet extends Declared<FiguresStatement>, SetNote {
  /** what it says of entries and kinds, by `file name` of each */
  readonly lines: ReadonlyMap<string, FigureLine>;
}

export interface FigureLine extends Declared<FigureStatement> {
  readonly values: ReadonlyMap<string, PropertyValue>;
}

/** A set of figures that counts, and the line that says so. */
export interface AppliedSet extends Declared<ApplyStatement> {
  readonly set: FigureSet;
}

/** Why a property that comes from a set of figures has no value. */
export interface FigureGap {
  readonly property: string;
  readonly group: string;
  /** `silent`: the set that counts says nothing of it; `told`: two sets count, or its line is wrong: that is told already */
  readonly why: 'none applied' | 'silent' | 'told';
  readonly set: SetNote | undefined;
}

export interface Entry extends Declared<EntryStatement> {
  readonly name: string;
  readonly label: string;
  readonly kind: Kind;
  readonly values: ReadonlyMap<string, PropertyValue>;
  readonly contraindications: readonly Contraindication[];
}

export type SlotAccepts =
  | { readonly type: 'kind'; readonly kind: Kind }
  | { readonly type: 'quantity'; readonly dimension: Dimension | 'size' }
  | { readonly type: 'text' }
  /** its kind's name is not known; said where it is declared */
  | { readonly type: 'unknown' };

export interface SlotModel {
  readonly preposition: string | undefined;
  readonly optional: boolean;
  readonly many: boolean;
  readonly accepts: SlotAccepts;
  /** the name it was given, or its kind's name */
  readonly name: string;
  readonly kindWord: string;
}

export interface Need {
  readonly condition: Expr;
  readonly ground: Ground;
}

export interface Effect {
  /** a slot's name, then properties */
  readonly path: readonly string[];
  readonly state: string;
  readonly place: Place;
}

export interface UseUp {
  readonly path: readonly string[];
  readonly bound: 'at least' | 'at most' | undefined;
  /** undefined: all of it */
  readonly amount: Expr | undefined;
  readonly place: Place;
}

/** Seconds. `stated` is false where nothing says how long at most; where nothing is said at all, it is 0 to infinity. */
export interface Duration {
  readonly lo: number;
  readonly hi: number;
  readonly stated: boolean;
  /** how long it takes most often, if that is said; within `lo` and `hi` */
  readonly usual?: number;
}

export interface Action extends Declared<ActionStatement> {
  readonly type: 'action';
  readonly verb: string;
  readonly label: string;
  readonly slots: readonly SlotModel[];
  readonly needs: readonly Need[];
  readonly makes: readonly Effect[];
  readonly usesUp: readonly UseUp[];
  /** whom it must not be done to */
  readonly contraindications: readonly Contraindication[];
  readonly takes: Duration;
  /** who may do it; empty: anyone of the team */
  readonly by: readonly string[];
  readonly ground: Ground;
}

export interface Procedure extends Declared<ProcedureStatement> {
  readonly type: 'procedure';
  readonly verb: string;
  readonly label: string;
  readonly slots: readonly SlotModel[];
}

export interface Finding extends Declared<FindingStatement> {
  readonly name: string;
  readonly label: string;
  /** name to label, in the order declared */
  readonly values: ReadonlyMap<string, string>;
}

export interface Pause extends Declared<PauseStatement> {
  readonly name: string;
  readonly label: string;
  readonly items: readonly string[];
  readonly takes: Duration;
  readonly by: readonly string[];
  readonly source: string | undefined;
}

export interface Source extends Declared<SourceStatement> {
  readonly name: string;
  readonly citation: string;
}

export interface PatternModel {
  readonly sort: Pattern['sort'];
  /** the verb; else the pause's name, the property measured, what is recorded, the finding's name */
  readonly verb: string;
  readonly slots: readonly SlotModel[];
  /** of a finding: one of these is found */
  readonly values: ReadonlySet<string>;
  readonly where: Expr | undefined;
  /** what does as well */
  readonly others: readonly PatternModel[];
  readonly node: Pattern;
}

/** What a property of one of the things says of a time that has to pass. */
export interface PropertyLimit {
  readonly side: 'at least' | 'at most' | 'exactly';
  readonly value: Expr;
}

/** A time that has to pass, as written and in seconds; `most` is endless where nothing bounds it. */
export interface TimeLimit {
  readonly written: Quantity;
  readonly least: number;
  readonly most: number;
}

export type RuleForm =
  | {
      readonly type: 'whenever';
      readonly pattern: PatternModel;
      readonly where: Expr | undefined;
      readonly expect: readonly Expr[];
    }
  | {
      readonly type: 'pause';
      readonly pause: string;
      readonly relation: 'before' | 'after';
      readonly pattern: PatternModel;
    }
  | {
      readonly type: 'order';
      readonly relation: 'before' | 'only after' | 'after' | 'first' | 'last';
      readonly first: PatternModel;
      readonly second: PatternModel | undefined;
      readonly scope: 'visit' | 'protocol';
    }
  | {
      readonly type: 'count';
      readonly pattern: PatternModel;
      readonly least: number;
      readonly most: number;
      readonly scope: 'visit' | 'protocol';
    }
  /** from the end of one step to the beginning of another, on the same thing where both patterns name one alike */
  | {
      readonly type: 'between';
      readonly first: PatternModel;
      readonly second: PatternModel;
      readonly limit: TimeLimit | PropertyLimit;
    }
  | { readonly type: 'every'; readonly kind: Kind; readonly properties: readonly string[] }
  /** what adds up over a visit or the protocol: of each thing of a kind by itself, or of all of them `together` */
  | {
      readonly type: 'total';
      readonly together: boolean;
      readonly kind: Kind;
      /** what stands for the thing in its conditions */
      readonly name: string;
      /** things that steps use some of up, or things that steps name */
      readonly how: 'given' | 'used';
      readonly scope: 'visit' | 'protocol';
      readonly where: Expr | undefined;
      readonly expect: readonly Expr[];
    }
  /** read, and said not to be judged yet; `verbs` tells which protocols it would speak of */
  | { readonly type: 'not judged'; readonly about: string; readonly verbs: readonly string[] };

export interface Rule extends Declared<RuleStatement> {
  readonly name: string;
  readonly label: string;
  readonly severity: Severity;
  readonly why: string | undefined;
  readonly source: string | undefined;
  readonly forms: readonly RuleForm[];
  readonly replaces: string | undefined;
}

/** A name as it can be asked for, with where it stands. */
export type Declaration =
  | Declared<KindStatement>
  | Declared<EntryStatement>
  | Declared<ActionStatement>
  | Declared<ProcedureStatement>
  | Declared<RuleStatement>
  | Declared<SourceStatement>
  | Declared<FindingStatement>
  | Declared<PauseStatement>
  | Declared<UnitStatement>
  | Declared<ProtocolStatement>
  | Declared<CaseStatement>
  | Declared<FiguresStatement>;

/** A stretch within a statement. */
export function placeOf(file: FileId, statement: Statement, span: Span): Place {
  return { file, statement: statement.id, span };
}
