/** How a rule knows which way to go: by the next word, worked out when a rule first has to choose. */
import {
  Alternation,
  type ILookaheadStrategy,
  type IProduction,
  type IProductionWithOccurrence,
  LLkLookaheadStrategy,
  NonTerminal,
  Option,
  Repetition,
  RepetitionMandatory,
  RepetitionMandatoryWithSeparator,
  RepetitionWithSeparator,
  type Rule,
  Terminal,
} from 'chevrotain';

type AlternationOptions = Parameters<ILookaheadStrategy['buildLookaheadForAlternation']>[0];
type OptionalOptions = Parameters<ILookaheadStrategy['buildLookaheadForOptional']>[0];

/** What a lookahead function runs on. */
interface Words {
  LA(distance: number): { readonly tokenTypeIdx: number };
}

/**
 * Chevrotain works every choice of a grammar out before the first word is read, for any number of words ahead: two thirds
 * of the time that the parser took to start. This grammar needs one word, so the words that may come first are gathered once
 * a rule (its FIRST set: Aho, Sethi, Ullman, Compilers, 1986, section 4.4), and a choice is looked up in a table. That no
 * choice is ambiguous is checked by Chevrotain itself, in a test.
 */
export class NextWordLookahead extends LLkLookaheadStrategy {
  private readonly firsts = new Map<Rule, First>();

  override buildLookaheadForAlternation({ rule, prodOccurrence }: AlternationOptions) {
    let table: (number | undefined)[] | undefined;
    const build = (): (number | undefined)[] => {
      const choices: (number | undefined)[] = [];
      const found = find(rule.definition, (item) => item instanceof Alternation && item.idx === prodOccurrence);
      for (const [at, choice] of within(found).entries()) {
        for (const word of this.firstOf(within(choice)).words) choices[word] ??= at;
      }
      return choices;
    };
    return function (this: Words): number | undefined {
      table ??= build();
      return table[this.LA(1).tokenTypeIdx];
    };
  }

  override buildLookaheadForOptional({ rule, prodOccurrence, prodType }: OptionalOptions) {
    let table: boolean[] | undefined;
    const build = (): boolean[] => {
      const enters: boolean[] = [];
      const sort = optionals[prodType];
      const found = find(rule.definition, (item) => item instanceof sort && item.idx === prodOccurrence);
      for (const word of this.firstOf(within(found)).words) enters[word] = true;
      return enters;
    };
    return function (this: Words): boolean {
      table ??= build();
      return table[this.LA(1).tokenTypeIdx] === true;
    };
  }

  /** The words that a run of productions may begin with. */
  private firstOf(productions: readonly IProduction[]): First {
    const words = new Set<number>();
    for (const production of productions) {
      const first = this.firstOfOne(production);
      for (const word of first.words) words.add(word);
      if (!first.empty) return { words, empty: false };
    }
    return { words, empty: true };
  }

  private firstOfOne(production: IProduction): First {
    if (production instanceof Terminal) {
      const { tokenTypeIdx, categoryMatches } = production.terminalType;
      return { words: new Set([tokenTypeIdx ?? -1, ...(categoryMatches ?? [])]), empty: false };
    }
    if (production instanceof NonTerminal) return this.firstOfRule(production.referencedRule);
    if (production instanceof Alternation) {
      const choices = production.definition.map((choice) => this.firstOf(within(choice)));
      return { words: new Set(choices.flatMap(({ words }) => [...words])), empty: choices.some(({ empty }) => empty) };
    }
    const inner = this.firstOf(within(production));
    const mandatory =
      production instanceof RepetitionMandatory || production instanceof RepetitionMandatoryWithSeparator;
    return mandatory ? inner : { words: inner.words, empty: true };
  }

  private firstOfRule(rule: Rule): First {
    const known = this.firsts.get(rule);
    if (known !== undefined) return known;
    const first = this.firstOf(rule.definition);
    this.firsts.set(rule, first);
    return first;
  }
}

/** `empty`: it may also be left out. */
interface First {
  readonly words: ReadonlySet<number>;
  readonly empty: boolean;
}

const optionals = {
  Option,
  Repetition,
  RepetitionMandatory,
  RepetitionWithSeparator,
  RepetitionMandatoryWithSeparator,
} as const;

/** The production that fits, within a rule and not in the rules it calls. */
function find(
  productions: readonly IProduction[],
  fits: (item: IProductionWithOccurrence) => boolean,
): IProduction | undefined {
  for (const item of productions) {
    if ('idx' in item && fits(item as IProductionWithOccurrence)) return item;
    const found = item instanceof NonTerminal ? undefined : find(within(item), fits);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** What an option, a repetition or an alternative is made of. */
function within(production: IProduction | undefined): readonly IProduction[] {
  return production !== undefined && 'definition' in production ? (production.definition as IProduction[]) : [];
}
