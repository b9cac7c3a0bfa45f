/**
 * Quantities, sizes, paths and texts. They stand in nearly every line: their alternatives and optional parts are made
 * once, as fields, because a closure made anew for every word costs more than reading the word.
 */
import {
  AnyText,
  Bound,
  Colon,
  Comma,
  Content,
  Dot,
  Minus,
  Named,
  NumberWord,
  RangeSign,
  SizeBy,
  UnitEnd,
  UnitStart,
} from '../tokens.ts';
import type { Measure, Name, PathNode, QuantityNode, SizeNode, Text, UnitName } from '../tree.ts';
import { type Alternatives, BaseParser } from './base.ts';

export abstract class ValueParser extends BaseParser {
  /** `N.cm`, `mg/mL`, `/min`, `%`, `cartridges` */
  protected unitName = this.RULE('unitName', (): UnitName => {
    const first = this.CONSUME(UnitStart);
    this.MANY(this.unitRest);
    const start = this.from(first);
    const end = this.end();
    const simple = end - start === first.image.length;
    return { start, end, text: simple ? first.image : this.characters.slice(this.origin + start, this.origin + end) };
  });

  private unitRest = (): void => {
    this.OR(this.unitRests);
  };

  private unitRests: Alternatives<unknown> = [
    {
      ALT: () => {
        this.CONSUME(Dot);
        if (this.OPTION(() => this.CONSUME(Content)) === undefined) this.lack('the rest of the unit');
      },
    },
    { ALT: () => this.CONSUME(UnitEnd) },
  ];

  protected measure = this.RULE('measure', (): Measure => {
    const number = this.CONSUME(NumberWord);
    const unit = this.OPTION(this.unit);
    const start = this.from(number);
    return { start, end: this.end(), value: Number(number.image), unit };
  });

  private unit = (): UnitName => this.SUBRULE(this.unitName);

  /** `10 min`, `10..40 min`, `at least 10 min`, `1:100000` */
  quantity = this.RULE('quantity', (): QuantityNode => this.OR(this.quantityForms));

  private quantityForms: Alternatives<QuantityNode> = [
    { ALT: () => this.SUBRULE(this.plainQuantity) },
    { ALT: () => this.SUBRULE(this.boundedQuantity) },
  ];

  protected plainQuantity = this.RULE('plainQuantity', (): QuantityNode => {
    const low = this.SUBRULE(this.measure);
    const tail = this.OPTION(this.rangeTail);
    const form = tail === undefined ? 'plain' : tail.form;
    return { type: 'quantity', start: low.start, end: this.end(), form, low, high: tail?.high };
  });

  private rangeTail = (): { form: 'range' | 'ratio'; high: Measure | undefined } => {
    const sign = this.CONSUME(RangeSign);
    const high = this.OPTION2(this.highEnd);
    if (high === undefined) this.lack('a number');
    return { form: sign.tokenType === Colon ? 'ratio' : 'range', high };
  };

  private highEnd = (): Measure => this.SUBRULE2(this.measure);

  protected boundedQuantity = this.RULE('boundedQuantity', (): QuantityNode => {
    const bound = this.CONSUME(Bound);
    const form = bound.tokenType.name as 'at least' | 'at most' | 'exactly';
    const measure = this.OPTION(() => this.SUBRULE(this.measure));
    if (measure === undefined) this.lack('a number');
    const start = this.from(bound);
    const [low, high] = form === 'at most' ? [undefined, measure] : [measure, undefined];
    return { type: 'quantity', start, end: this.end(), form, low, high };
  });

  /** A quantity or a size. */
  protected amount = this.RULE('amount', (): QuantityNode | SizeNode => {
    const first = this.SUBRULE(this.quantity);
    if (this.sides.length > 0) this.sides.length = 0;
    this.MANY(this.furtherSide);
    if (this.sides.length === 0) return first;
    const sides = [first, ...this.sides];
    return { type: 'size', start: first.start, end: this.end(), sides };
  });

  private sides: QuantityNode[] = [];

  private furtherSide = (): void => {
    this.CONSUME(SizeBy);
    const side = this.OPTION(this.side);
    if (side === undefined) this.lack('a length');
    else this.sides.push(side);
  };

  private side = (): QuantityNode => this.SUBRULE2(this.quantity);

  /** A quantity that is a time; a bare number lacks its unit. */
  protected someTime = this.RULE('someTime', (): QuantityNode => {
    const written = this.SUBRULE(this.quantity);
    const top = this.OPTION(this.hyphened);
    const quantity: QuantityNode =
      top === undefined
        ? written
        : { ...written, end: this.end(), form: 'range', low: written.low ?? written.high, high: top.high };
    const measure = quantity.high ?? quantity.low;
    if (measure !== undefined && measure.unit === undefined && measure.end === this.end()) this.lack('a unit of time');
    return quantity;
  });

  /** `5-10 min`: where a time is written there are no differences, and a hyphen can only be meant for a range. */
  private hyphened = (): { high: Measure | undefined } => {
    const sign = this.CONSUME(Minus);
    this.foreign({ start: this.from(sign), end: this.to(sign) }, '".."');
    const high = this.OPTION2(this.highEnd);
    if (high === undefined) this.lack('a number');
    return { high };
  };

  protected duration = this.RULE('duration', (): QuantityNode | undefined => {
    const quantity = this.OPTION(this.timeHere);
    if (quantity === undefined) this.lack('a time such as 10 min');
    return quantity;
  });

  private timeHere = (): QuantityNode => this.SUBRULE(this.someTime);

  protected path = this.RULE('path', (): PathNode => {
    const first = this.named(this.CONSUME(Named));
    if (this.pathNames.length > 0) this.pathNames.length = 0;
    this.MANY(this.furtherName);
    const names = this.pathNames.length === 0 ? [first] : [first, ...this.pathNames];
    return { type: 'path', start: first.start, end: this.end(), names };
  });

  private pathNames: Name[] = [];

  private furtherName = (): void => {
    this.CONSUME(Dot);
    const next = this.OPTION(this.pathName);
    if (next === undefined) this.lack('a name');
    else this.pathNames.push(next);
  };

  private pathName = (): Name => this.named(this.CONSUME2(Named));

  // Parts that a line needs; without them it says what is missing.

  protected name = this.RULE('name', (what: string): Name | undefined => {
    const name = this.OPTION(this.aName);
    if (name === undefined) this.lack(what);
    return name;
  });

  protected aName = (): Name => this.named(this.CONSUME(Named));

  /** One name or more, with commas between. */
  protected names = this.RULE('names', (what: string): Name[] => {
    const first = this.OPTION(this.aName);
    if (first === undefined) this.lack(what);
    const names = first === undefined ? [] : [first];
    this.MANY(() => {
      this.CONSUME(Comma);
      const next = this.OPTION2(this.pathName);
      if (next === undefined) this.lack(what);
      else names.push(next);
    });
    return names;
  });

  protected label = this.RULE('label', (): Text | undefined => this.OPTION(this.aText));

  protected aText = (): Text => this.text(this.CONSUME(AnyText));

  protected wording = this.RULE('wording', (what: string): Text | undefined => {
    const text = this.OPTION(this.aText);
    if (text === undefined) this.lack(what);
    return text;
  });
}
