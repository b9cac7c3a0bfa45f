/** Lines at the outer level of a file, and what they name. */
import type { IToken } from 'chevrotain';
import { AnyWord, Count, DateWord, Is, Of, PathPart } from '../tokens.ts';
import type {
  ActionStatement,
  CaseStatement,
  EntryStatement,
  FindingStatement,
  KindStatement,
  Name,
  PauseStatement,
  ProcedureStatement,
  ProtocolStatement,
  QuantityNode,
  RuleStatement,
  Slot,
  SourceStatement,
  StartStatement,
  Text,
  UnitStatement,
  UseStatement,
} from '../tree.ts';
import { ClauseParser } from './clauses.ts';

type Titled = RuleStatement | SourceStatement | FindingStatement | PauseStatement | ProtocolStatement;

export abstract class DeclarationParser extends ClauseParser {
  useLine = this.RULE('useLine', (): UseStatement => {
    this.CONSUME(AnyWord);
    const parts: IToken[] = [];
    this.MANY(() => parts.push(this.CONSUME(PathPart)));
    const [first] = parts;
    const last = parts.at(-1);
    if (first === undefined || last === undefined) {
      this.lack('the library file or the file beside this one');
      const { id, length, head, doc, flaws, body } = this.base;
      return { id, length, head, doc, flaws, body, type: 'use', path: undefined };
    }
    const text = parts.map((part) => part.image).join('');
    const { id, length, head, doc, flaws, body } = this.base;
    return {
      id,
      length,
      head,
      doc,
      flaws,
      body,
      type: 'use',
      path: { start: this.from(first), end: this.to(last), text },
    };
  });

  unitLine = this.RULE('unitLine', (): UnitStatement => {
    this.CONSUME(AnyWord);
    const names = this.SUBRULE(this.names, { ARGS: ['the name of the unit'] });
    let value: QuantityNode | undefined;
    let count = false;
    let is = false;
    this.OPTION(() => {
      this.CONSUME(Is);
      is = true;
      this.OPTION2(() => {
        this.OR([
          {
            ALT: () => {
              this.CONSUME(Count);
              count = true;
            },
          },
          {
            ALT: () => {
              value = this.SUBRULE(this.quantity);
            },
          },
        ]);
      });
      if (value === undefined && !count) this.lack('a quantity such as 0.05 mL, or "count",');
    });
    if (!is) this.lack('"is" and a quantity');
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'unit', names, value, count };
  });

  kindLine = this.RULE('kindLine', (): KindStatement => {
    this.CONSUME(AnyWord);
    const name = this.SUBRULE(this.name, { ARGS: ['a name'] });
    const label = this.SUBRULE(this.label);
    const parent = this.SUBRULE(this.isKind);
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'kind', name, label, parent };
  });

  /** `is graft` */
  protected isKind = this.RULE('isKind', (): Name | undefined =>
    this.OPTION(() => {
      this.CONSUME(Is);
      return this.SUBRULE(this.name, { ARGS: ['a kind'] });
    }),
  );

  entryLine = this.RULE('entryLine', (): EntryStatement => {
    const group = this.named(this.CONSUME(AnyWord));
    const name = this.SUBRULE(this.name, { ARGS: ['a name'] });
    const label = this.SUBRULE(this.label);
    const kind = this.SUBRULE(this.isKind);
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'entry', group, name, label, kind };
  });

  actionLine = this.RULE('actionLine', (): ActionStatement => {
    const { verb, label, slots } = this.SUBRULE(this.signature);
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'action', verb, label, slots };
  });

  procedureLine = this.RULE('procedureLine', (): ProcedureStatement => {
    const { verb, label, slots } = this.SUBRULE(this.signature);
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'procedure', verb, label, slots };
  });

  /** `action pack "Pack" (graft g) into (site s)` */
  protected signature = this.RULE(
    'signature',
    (): { verb: Name | undefined; label: Text | undefined; slots: Slot[] } => {
      this.CONSUME(AnyWord);
      const verb = this.SUBRULE(this.name, { ARGS: ['a verb'] });
      const label = this.SUBRULE(this.label);
      const slots = this.SUBRULE(this.slots);
      return { verb, label, slots };
    },
  );

  ruleLine = this.RULE('ruleLine', (): RuleStatement => this.titled('rule', this.SUBRULE(this.title)));
  sourceLine = this.RULE('sourceLine', (): SourceStatement => this.titled('source', this.SUBRULE(this.title)));
  findingLine = this.RULE('findingLine', (): FindingStatement => this.titled('finding', this.SUBRULE(this.title)));
  pauseLine = this.RULE('pauseLine', (): PauseStatement => this.titled('pause', this.SUBRULE(this.title)));
  protocolLine = this.RULE('protocolLine', (): ProtocolStatement => this.titled('protocol', this.SUBRULE(this.title)));

  /** `rule NAME "…"` */
  protected title = this.RULE('title', (): { name: Name | undefined; label: Text | undefined } => {
    this.CONSUME(AnyWord);
    const name = this.SUBRULE(this.name, { ARGS: ['a name'] });
    const label = this.SUBRULE(this.label);
    return { name, label };
  });

  private titled<T extends Titled['type']>(type: T, title: { name: Name | undefined; label: Text | undefined }) {
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type, name: title.name, label: title.label };
  }

  caseLine = this.RULE('caseLine', (): CaseStatement => {
    const { name, label } = this.SUBRULE(this.title);
    let of: Name | undefined;
    let said = false;
    this.OPTION(() => {
      this.CONSUME(Of);
      said = true;
      of = this.SUBRULE(this.name, { ARGS: ['a protocol'] });
    });
    if (!said) this.lack('"of" and a protocol');
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'case', name, label, of };
  });

  /** `start 2027-03-01` */
  startLine = this.RULE('startLine', (): StartStatement => {
    this.CONSUME(AnyWord);
    const date = this.OPTION(() => this.named(this.CONSUME(DateWord)));
    if (date === undefined) this.lack('a day such as 2027-03-01');
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'start', date };
  });
}
