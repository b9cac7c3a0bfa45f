/** Lines in the frame of a protocol: versions, what is given, who is there, visits. */
import { AnyWord, By, Colon, DateWord, Every, Named, VersionLike } from '../tokens.ts';
import type {
  DatedStatement,
  FollowsStatement,
  Name,
  OwnerStatement,
  QuantityNode,
  ReviewStatement,
  RoleStatement,
  SizeNode,
  StatusStatement,
  TeamStatement,
  Text,
  ThingStatement,
  ThingsStatement,
  VersionStatement,
  VisitStatement,
  WarningStatement,
} from '../tree.ts';
import { RuleParser } from './rules.ts';

export abstract class ProtocolParser extends RuleParser {
  versionLine = this.RULE('versionLine', (): VersionStatement => {
    this.CONSUME(AnyWord);
    const version = this.OPTION(() => this.named(this.CONSUME(VersionLike)));
    if (version === undefined) this.lack('a version such as 1.0.0');
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'version', version };
  });

  statusLine = this.RULE('statusLine', (): StatusStatement => {
    this.CONSUME(AnyWord);
    const { id, length, head, doc, flaws, body } = this.base;
    return {
      id,
      length,
      head,
      doc,
      flaws,
      body,
      type: 'status',
      status: this.SUBRULE(this.name, { ARGS: ['draft, in_review, approved or retired'] }),
    };
  });

  ownerLine = this.RULE('ownerLine', (): OwnerStatement => {
    this.CONSUME(AnyWord);
    const { id, length, head, doc, flaws, body } = this.base;
    return {
      id,
      length,
      head,
      doc,
      flaws,
      body,
      type: 'owner',
      owner: this.SUBRULE(this.wording, { ARGS: ['who answers for it, in quotes,'] }),
    };
  });

  /** `review every 12 mo` */
  reviewLine = this.RULE('reviewLine', (): ReviewStatement => {
    this.CONSUME(AnyWord);
    let every: QuantityNode | undefined;
    if (this.OPTION(() => this.CONSUME(Every)) === undefined) this.lack('"every" and a time');
    this.OPTION2(() => {
      every = this.SUBRULE(this.someTime);
    });
    if (every === undefined && this.found.length === 0) this.lack('a time such as 12 mo');
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'review', every };
  });

  reviewedLine = this.RULE('reviewedLine', (): DatedStatement => this.SUBRULE(this.dated, { ARGS: ['reviewed'] }));
  approvedLine = this.RULE('approvedLine', (): DatedStatement => this.SUBRULE(this.dated, { ARGS: ['approved'] }));

  /** `approved 2026-02-03 by "Teaching committee"` */
  protected dated = this.RULE('dated', (type: DatedStatement['type']): DatedStatement => {
    this.CONSUME(AnyWord);
    const date = this.OPTION(() => this.named(this.CONSUME(DateWord)));
    if (date === undefined) this.lack('a day such as 2026-02-01');
    let by: Text | undefined;
    this.OPTION2(() => {
      this.CONSUME(By);
      by = this.SUBRULE(this.wording, { ARGS: ['who, in quotes,'] });
    });
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type, date, by };
  });

  followsLine = this.RULE('followsLine', (): FollowsStatement => {
    this.CONSUME(AnyWord);
    const { id, length, head, doc, flaws, body } = this.base;
    return {
      id,
      length,
      head,
      doc,
      flaws,
      body,
      type: 'follows',
      protocol: this.SUBRULE(this.name, { ARGS: ['a protocol'] }),
    };
  });

  excludeLine = this.RULE('excludeLine', (): WarningStatement => this.SUBRULE(this.warning, { ARGS: ['exclude'] }));
  cautionLine = this.RULE('cautionLine', (): WarningStatement => this.SUBRULE(this.warning, { ARGS: ['caution'] }));

  protected warning = this.RULE('warning', (type: WarningStatement['type']): WarningStatement => {
    this.CONSUME(AnyWord);
    const condition = this.SUBRULE(this.whenCondition);
    const { id, length, head, doc, flaws, body } = this.base;
    const { because, source } = this;
    return { id, length, head, doc, flaws, body, type, condition, because, source };
  });

  givenLine = this.RULE('givenLine', (): ThingsStatement => this.bare('given', this.CONSUME(AnyWord)));
  materialsLine = this.RULE('materialsLine', (): ThingsStatement => this.bare('materials', this.CONSUME(AnyWord)));
  instrumentsLine = this.RULE(
    'instrumentsLine',
    (): ThingsStatement => this.bare('instruments', this.CONSUME(AnyWord)),
  );
  teamLine = this.RULE('teamLine', (): TeamStatement => this.bare('team', this.CONSUME(AnyWord)));

  /** A line that is its first word alone; the word is consumed by the caller. */
  protected bare<T extends string>(type: T, _word: unknown) {
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type };
  }

  teamMemberLine = this.RULE('teamMemberLine', (): RoleStatement => {
    const name = this.named(this.CONSUME(AnyWord));
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'team member', name };
  });

  /** `graft : cortical_allograft 0.5 mL` */
  thingLine = this.RULE('thingLine', (): ThingStatement => {
    const name = this.named(this.CONSUME(AnyWord));
    let kind: Name | undefined;
    this.OPTION(() => {
      this.CONSUME(Colon);
      kind = this.OPTION2(() => this.named(this.CONSUME(Named)));
      if (kind === undefined) this.lack(`what "${name.text}" is`);
    });
    const amount: QuantityNode | SizeNode | undefined = this.OPTION3(() => this.SUBRULE(this.amount));
    this.SUBRULE(this.grounds);
    const { id, length, head, doc, flaws, body } = this.base;
    const { because, source } = this;
    return { id, length, head, doc, flaws, body, type: 'thing', name, kind, amount, because, source };
  });

  visitLine = this.RULE('visitLine', (): VisitStatement => {
    const { name, label } = this.SUBRULE(this.title);
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'visit', name, label };
  });
}
