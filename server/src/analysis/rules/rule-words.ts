import type { Expr } from '@curette/grammar';
import { formatQuantity } from '@curette/shared';
import { listWords, plain } from '../../problems/words.ts';
import type { RuleForm } from '../model.ts';
import type { Module } from '../names/module.ts';
import { patternWords, timesWords } from '../protocol/pattern-words.ts';
import { type Form, kindIn, type Stated } from './difference.ts';
import { wordsOf } from './pattern.ts';

/** A whole thing that a rule asks for, in words. */
export function formWords(stated: Stated, form: RuleForm): string {
  switch (form.type) {
    case 'whenever':
      return `"${patternWords(form.pattern)}": ${listWords(
        form.expect.map((expr) => conditionWords(expr, stated.module, form)),
        'and',
      )}`;
    case 'pause':
      return `the pause "${plain(form.pause)}" ${form.relation} "${patternWords(form.pattern)}"`;
    case 'order': {
      const over = form.scope === 'visit' ? 'in a visit' : 'in the protocol';
      const second = form.second ? ` "${patternWords(form.second)}"` : '';
      return `"${patternWords(form.first)}" ${form.relation}${second} ${over}`;
    }
    case 'count':
      return `"${patternWords(form.pattern)}" ${oftenWords(form)}`;
    case 'between':
      return `${timeWords(form)} between "${patternWords(form.first)}" and "${patternWords(form.second)}"`;
    case 'every':
      return `every ${form.kind.label} states ${listWords(form.properties.map(plain), 'and')}`;
    case 'total': {
      const each = form.together ? `all ${form.kind.label} together` : `each ${form.kind.label}`;
      const expected = form.expect.map((expr) => conditionWords(expr, stated.module, form));
      return `${each} ${form.how} in ${form.scope === 'visit' ? 'a visit' : 'the protocol'}: ${listWords(expected, 'and')}`;
    }
    case 'not judged':
      return form.about;
    default:
      return form satisfies never;
  }
}

/** "exactly once in a visit" */
export function oftenWords({ least, most, scope }: Form<'count'>): string {
  return `${timesWords(least, most)} in ${scope === 'visit' ? 'a visit' : 'the protocol'}`;
}

/** "at least 4 mo" */
export function timeWords({ limit, second }: Form<'between'>): string {
  if ('side' in limit) {
    const names = limit.value.type === 'path' ? limit.value.names : [];
    const [first, ...rest] = names.map(({ text }) => text);
    const slot = second.slots.find(({ name }) => name === first);
    const of = slot ? ` of the ${plain(slot.kindWord)}` : '';
    return `${limit.side} the ${rest.reverse().map(plain).join(' of the ')}${of}`;
  }
  const { written, most } = limit;
  const words = formatQuantity(written);
  return written.range.lo === written.range.hi && !Number.isFinite(most) ? `at least ${words}` : words;
}

/** A condition as a rule has it, its names told by what they are. */
export function conditionWords(expr: Expr, module: Module, form: Form<'whenever' | 'total'>): string {
  return wordsOf(spoken(expr, form), {
    module,
    filling: () => undefined,
    thing: () => undefined,
    state: undefined,
  });
}

/** The same expression with the kinds' labels where a pattern gives letters. */
function spoken(expr: Expr, form: Form<'whenever' | 'total'>): Expr {
  const inner = (part: Expr) => spoken(part, form);
  switch (expr.type) {
    case 'path': {
      const [first, ...rest] = expr.names;
      const label = first && labelIn(form, first.text);
      return label === undefined || !first ? expr : { ...expr, names: [{ ...first, text: label }, ...rest] };
    }
    case 'and':
    case 'or':
    case 'compare':
    case 'arithmetic':
      return { ...expr, left: inner(expr.left), right: expr.right && inner(expr.right) };
    case 'not':
      return { ...expr, operand: expr.operand && inner(expr.operand) };
    case 'is':
    case 'relation':
      return { ...expr, subject: inner(expr.subject) };
    case 'state': {
      const subject = inner(expr.subject);
      return subject.type === 'path' ? { ...expr, subject } : expr;
    }
    case 'call':
      return { ...expr, args: expr.args.map(inner) };
    case 'quantity':
    case 'size':
    case 'text':
    case 'yes or no':
      return expr;
    default:
      return expr satisfies never;
  }
}

/** What a name of a rule is called: its kind; for an amount its own name, unless that is only a letter. */
function labelIn(form: Form<'whenever' | 'total'>, name: string): string | undefined {
  const kind = kindIn(form, name);
  if (kind) return kind.label;
  const slot = form.type === 'whenever' ? form.pattern.slots.find((other) => other.name === name) : undefined;
  return slot && name.length === 1 ? slot.kindWord : undefined;
}
