import { formatQuantity } from '@curette/shared';
import { timeQuantity } from '../analysis/protocol/flow-words.ts';
import { type Mend, type Place, problemKind, type Severity, type SourceNote } from './problem.ts';
import { sentence, whenHead } from './words.ts';

interface Data {
  readonly rule: string;
  readonly label: string;
  readonly severity: Severity;
  /** the two steps, as their lines say it */
  readonly first: string;
  readonly second: string;
  readonly firstPlace: Place | undefined;
  /** "at least 4 months" */
  readonly limit: string;
  readonly side: 'too soon' | 'too late' | 'not told';
  readonly always: boolean;
  /** seconds between them: the shortest or longest that it can be */
  readonly seconds: number;
  /** ISO 8601 dates of a run for which it breaks, where dates decide */
  readonly dates: { readonly from: string; readonly reached: string; readonly wanted: string } | undefined;
  readonly when: string;
  readonly why: string | undefined;
  readonly source: SourceNote | undefined;
  readonly declared: Place;
  readonly tries: readonly Mend[];
}

export const ruleTimeBroken = problemKind<Data>({
  code: 'rule_time_broken',
  severity: 'warning',
  title: 'Rule about time broken',
  page: `A rule says how much time has to lie between two steps, and the order of work, or the wait between two visits, does not give it that. The time counts from the end of the first step to the beginning of the second; of a step that comes more than once, the last time before the second counts.

* Broken whatever the durations turn out to be: as severe as the rule says.
* Broken in some runs: at most a warning.
* Not to be told, because something between does not say how long it takes: advice.

Lengthen or shorten the wait, or move a step. If your institution has reason to do otherwise, declare a rule of its own that \`replaces\` this one and says why.`,
  triggers: `
// quiet: missing_head
action graft (place p) { takes 10..20 min }
action load (place p) { takes 10 min }

rule heal_before_loading "A graft heals before it is loaded" {
  between  graft (place p) and load (place p) at least 4 mo
  severity error
  why      "Loaded too soon it comes loose"
  source   common_practice
}

protocol course "Graft and load" {
  given { site : place }
  visit first "First" {
    graft site
  }
  wait 3..5 mo
  visit second "Second" {
    load site
//  ^^^^^^^^^ heal_before_loading
  }
}
`,
  silent: `
// quiet: missing_head
action graft (place p) { takes 10..20 min }
action load (place p) { takes 10 min }

rule heal_before_loading "A graft heals before it is loaded" {
  between  graft (place p) and load (place p) at least 4 mo
  severity error
  why      "Loaded too soon it comes loose"
  source   common_practice
}

protocol course "Graft and load" {
  given { site : place }
  visit first "First" {
    graft site
  }
  wait 4..5 mo
  visit second "Second" {
    load site
  }
}
`,
  words: (data) => {
    const { first, second, limit, side, always, seconds, dates, when } = data;
    const head = whenHead(when);
    const time = Number.isFinite(seconds) ? formatQuantity(timeQuantity(seconds), { digits: 3 }) : 'without end';
    const between = `between "${first}" and the beginning of "${second}"`;
    const lies =
      side === 'not told'
        ? `how much time lies ${between} cannot be told`
        : `${always ? '' : 'in some runs '}${side === 'too soon' ? 'only ' : ''}${time} ${always ? 'lie' : 'may lie'} ${between}`;
    const onDates = dates
      ? ` From ${dates.from}, for instance, it is ${dates.reached}, and the limit is ${dates.wanted}.`
      : '';
    return {
      rule: data.rule,
      title: data.label,
      severity: side === 'not told' ? 'advice' : always || data.severity !== 'error' ? data.severity : 'warning',
      message: `${sentence(`${head}${lies}`)}; it should be ${limit}.${onDates}`,
      label: side === 'not told' ? 'time cannot be told' : `${side}: ${time}`,
      why: data.why,
      source: data.source,
      related: [
        ...(data.firstPlace ? [{ place: data.firstPlace, message: 'the time counts from the end of this' }] : []),
        { place: data.declared, message: `rule ${data.rule}` },
      ],
      tries: data.tries,
    };
  },
});
