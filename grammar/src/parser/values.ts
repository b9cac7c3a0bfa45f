/** Quantities, sizes, paths and texts. */
import {
  AnyText,
  Bound,
  Colon,
  Comma,
  Content,
  Dot,
  DotDot,
  Minus,
  Named,
  NumberWord,
  SizeBy,
  UnitEnd,
  UnitStart,
} from '../tokens.ts';
import type { Measure, Name, PathNode, QuantityNode, SizeNode, Text, UnitName } from '../tree.ts';
import { BaseParser } from './base.ts';

export abstract class ValueParser extends BaseParser {
  /** `N.cm`, `mg/mL`, `/min`, `%`, `cartridges` */
  protected unitName = this.RULE('unitName', (): UnitName => {
    const first = this.CONSUME(UnitStart);
    const start = this.from(first);
    let end = this.to(first);
    this.MANY(() => {
      this.OR([
        {
          ALT: () => {
            this.CONSUME(Dot);
            if (this.OPTION(() => this.CONSUME(Content)) === undefined) this.lack('the rest of the unit');
          },
        },
        { ALT: () => this.CONSUME(UnitEnd) },
      ]);
      end = this.end();
    });
    const simple = end - start === first.image.length;
    return { start, end, text: simple ? first.image : this.characters.slice(this.origin + start, this.origin + end) };
  });

  protected measure = this.RULE('measure', (): Measure => {
    let start = 0;
    let value = Number.NaN;
    this.OR([
      {
        ALT: () => {
          const number = this.CONSUME(NumberWord);
          start = this.from(number);
          value = Number(number.image);
        },
      },
      {
        ALT: () => {
          start = this.from(this.CONSUME(Minus));
          const number = this.OPTION(() => this.CONSUME2(NumberWord));
          if (number === undefined) this.lack('a number');
          else value = -Number(number.image);
        },
      },
    ]);
    const unit = this.OPTION2(() => this.SUBRULE(this.unitName));
    return { start, end: unit !== undefined ? unit.end : this.end(), value, unit };
  });

  /** `10 min`, `10..40 min`, `at least 10 min`, `1:100000` */
  quantity = this.RULE(
    'quantity',
    (): QuantityNode =>
      this.OR([
        { ALT: () => this.SUBRULE(this.boundedQuantity) },
        {
          ALT: (): QuantityNode => {
            const low = this.SUBRULE(this.measure);
            let form: QuantityNode['form'] = 'plain';
            let high: Measure | undefined;
            this.OPTION(() => {
              this.OR2([
                {
                  ALT: () => {
                    this.CONSUME(DotDot);
                    form = 'range';
                  },
                },
                {
                  ALT: () => {
                    this.CONSUME(Colon);
                    form = 'ratio';
                  },
                },
              ]);
              high = this.OPTION2(() => this.SUBRULE2(this.measure));
              if (high === undefined) this.lack('a number');
            });
            return { type: 'quantity', start: low.start, end: this.end(), form, low, high };
          },
        },
      ]),
  );

  protected boundedQuantity = this.RULE('boundedQuantity', (): QuantityNode => {
    const bound = this.CONSUME(Bound);
    const form = bound.tokenType.name as 'at least' | 'at most' | 'exactly';
    const measure = this.OPTION(() => this.SUBRULE(this.measure));
    if (measure === undefined) this.lack('a number');
    const most = form === 'at most';
    const start = this.from(bound);
    return {
      type: 'quantity',
      start,
      end: this.end(),
      form,
      low: most ? undefined : measure,
      high: most ? measure : undefined,
    };
  });

  /** A quantity or a size. */
  protected amount = this.RULE('amount', (): QuantityNode | SizeNode => {
    const first = this.SUBRULE(this.quantity);
    let sides: QuantityNode[] | undefined;
    this.MANY(() => {
      this.CONSUME(SizeBy);
      const side = this.OPTION(() => this.SUBRULE2(this.quantity));
      if (side === undefined) this.lack('a length');
      else {
        sides ??= [first];
        sides.push(side);
      }
    });
    if (sides === undefined) return first;
    return { type: 'size', start: first.start, end: this.end(), sides };
  });

  /** A quantity that is a time; a bare number lacks its unit. */
  protected someTime = this.RULE('someTime', (): QuantityNode => {
    const quantity = this.SUBRULE(this.quantity);
    const measure = quantity.high ?? quantity.low;
    if (measure !== undefined && measure.unit === undefined && measure.end === this.end()) this.lack('a unit of time');
    return quantity;
  });

  protected duration = this.RULE('duration', (): QuantityNode | undefined => {
    const quantity = this.OPTION(() => this.SUBRULE(this.someTime));
    if (quantity === undefined) this.lack('a time such as 10 min');
    return quantity;
  });

  protected path = this.RULE('path', (): PathNode => {
    const first = this.named(this.CONSUME(Named));
    const names = [first];
    let end = first.end;
    this.MANY(() => {
      this.CONSUME(Dot);
      const next = this.OPTION(() => this.named(this.CONSUME2(Named)));
      if (next === undefined) this.lack('a name');
      else names.push(next);
      end = this.end();
    });
    return { type: 'path', start: first.start, end, names };
  });

  // Parts that a line needs; without them it says what is missing.

  protected name = this.RULE('name', (what: string): Name | undefined => {
    const name = this.OPTION(() => this.named(this.CONSUME(Named)));
    if (name === undefined) this.lack(what);
    return name;
  });

  /** One name or more, with commas between. */
  protected names = this.RULE('names', (what: string): Name[] => {
    const names: Name[] = [];
    this.OPTION(() => names.push(this.named(this.CONSUME(Named))));
    if (names.length === 0) this.lack(what);
    this.MANY(() => {
      this.CONSUME(Comma);
      const next = this.OPTION2(() => this.named(this.CONSUME2(Named)));
      if (next === undefined) this.lack(what);
      else names.push(next);
    });
    return names;
  });

  protected label = this.RULE('label', (): Text | undefined => this.OPTION(() => this.text(this.CONSUME(AnyText))));

  protected wording = this.RULE('wording', (what: string): Text | undefined => {
    const text = this.OPTION(() => this.text(this.CONSUME(AnyText)));
    if (text === undefined) this.lack(what);
    return text;
  });
}
