/** The properties of a kind, and what they may hold. */
import type { IToken } from 'chevrotain';
import { AnyWord, Colon, Comma, Content, DotDot, From, NumberWord, Of, TypeWord, Within } from '../tokens.ts';
import type { Name, PropertyStatement, PropertyType, QuantityNode } from '../tree.ts';
import { quantityNames } from '../words.ts';
import { FigureParser } from './figures.ts';
import { longestQuantity } from './patterns.ts';

/** `one of 11..18` names every number between, up to here. */
const mostValues = 1000;

export abstract class PropertyParser extends FigureParser {
  /** `particle : length range within 1 um..5 mm source common_practice`, `ceiling : mass from ceilings` */
  propertyLine = this.RULE('propertyLine', (): PropertyStatement => {
    const name = this.named(this.CONSUME(AnyWord));
    let within: QuantityNode | undefined;
    this.OPTION(() => this.CONSUME(Colon));
    const value = this.SUBRULE(this.propertyType);
    let from: Name | undefined;
    this.MANY(() => {
      this.OR([
        {
          ALT: () => {
            this.CONSUME(Within);
            within = this.OPTION2(() => this.SUBRULE(this.quantity));
            if (within === undefined) this.lack('the range outside which a value is a slip');
          },
        },
        {
          ALT: () => {
            this.CONSUME(From);
            from = this.SUBRULE(this.name, { ARGS: ['a group of sets of figures'] });
          },
        },
      ]);
    });
    this.SUBRULE(this.grounds);
    const { id, length, head, doc, flaws, body } = this.base;
    const { because, source } = this;
    return { id, length, head, doc, flaws, body, type: 'property', name, value, within, from, because, source };
  });

  protected propertyType = this.RULE('propertyType', (): PropertyType | undefined => {
    const words: IToken[] = [];
    const values: Name[] = [];
    this.MANY(() => words.push(this.CONSUME(TypeWord)));
    this.OPTION(() => this.SUBRULE(this.numberValues, { ARGS: [values] }));
    this.MANY2(() => {
      this.CONSUME(Comma);
      this.OPTION2(() => {
        this.OR2([
          { ALT: () => values.push(this.named(this.CONSUME2(Content))) },
          { ALT: () => this.SUBRULE2(this.numberValues, { ARGS: [values] }) },
        ]);
      });
    });
    return this.RECORDING_PHASE ? undefined : this.resolveType(words, values);
  });

  /** `11` or `11..18` */
  protected numberValues = this.RULE('numberValues', (values: Name[]): void => {
    const low = this.CONSUME(NumberWord);
    let high = low;
    this.OPTION(() => {
      this.CONSUME(DotDot);
      this.OPTION2(() => {
        high = this.CONSUME2(NumberWord);
      });
      if (high === low) this.lack('the last number');
    });
    if (this.RECORDING_PHASE) return;
    const start = this.from(low);
    const end = this.end();
    if (high === low) {
      values.push({ start, end, text: low.image });
      return;
    }
    const from = Number(low.image);
    const to = Number(high.image);
    if (!Number.isInteger(from) || !Number.isInteger(to) || to < from || to - from >= mostValues) {
      this.misfit({ start, end }, 'two whole numbers, the smaller first');
      return;
    }
    for (let value = from; value <= to; value++) values.push({ start, end, text: String(value) });
  });

  private resolveType(words: IToken[], values: Name[]): PropertyType | undefined {
    const [first, second, third] = words;
    if (first === undefined) {
      if (values.length === 0) this.lack('what it holds, such as "length", "text" or a kind,');
      else this.misfit({ start: this.end(), end: this.end() }, '"one of" before the values');
      return undefined;
    }
    const start = this.from(first);
    const span = { start, end: this.end() };
    if ((first.image === 'one' || first.image === 'any') && second?.tokenType === Of) {
      const all = third === undefined ? values : [this.named(third), ...values];
      if (all.length === 0) this.lack('the values, with commas between,');
      this.tooMany(words, 3);
      return { form: first.image === 'one' ? 'one of' : 'any of', ...span, values: all };
    }
    const range = words.length > 1 && words.at(-1)?.image === 'range';
    const length = first.image === 'yes' ? 3 : longestQuantity(words);
    const phrase = this.joined(words.slice(0, length));
    if (phrase === undefined) return undefined;
    this.tooMany(words, range ? length + 1 : length);
    if (values.length > 0) this.misfit({ start: phrase.end, end: this.end() }, '"one of" before the values');
    const end = range ? this.end() : phrase.end;
    if (quantityNames.some((name) => name === phrase.text))
      return { form: 'quantity', start, end, dimension: phrase.text, range };
    if (phrase.text === 'size' || phrase.text === 'yes or no' || phrase.text === 'text' || phrase.text === 'number') {
      return { form: phrase.text, start, end };
    }
    return { form: 'kind', start, end: phrase.end, kind: phrase };
  }

  private tooMany(words: readonly IToken[], most: number): void {
    const extra = words[most];
    const last = words.at(-1);
    if (extra !== undefined && last !== undefined) {
      this.misfit(
        { start: this.from(extra), end: this.to(last) },
        '"range", "within", "from", "source", "because" or the end of the line',
      );
    }
  }
}
