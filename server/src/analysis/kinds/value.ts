import type { Expr, PropertyType, Span, Statement, ValueStatement } from '@curette/grammar';
import { commonDimension, compare, dimensionNamed, fitTo, isCalendar, type Quantity, slipOf } from '@curette/shared';
import { notJudged } from '../../problems/not_judged.ts';
import { outsidePlausible } from '../../problems/outside_plausible.ts';
import { problemAt, type Report } from '../../problems/problem.ts';
import { unknownName } from '../../problems/unknown_name.ts';
import { unknownProperty } from '../../problems/unknown_property.ts';
import { valueOutsideSet } from '../../problems/value_outside_set.ts';
import { article } from '../../problems/words.ts';
import { wrongKind } from '../../problems/wrong_kind.ts';
import { wrongMeasure } from '../../problems/wrong_measure.ts';
import { wrongValue } from '../../problems/wrong_value.ts';
import { type Kind, type Property, type PropertyValue, placeOf, type SetNote, type Value } from '../model.ts';
import { type Module, visibleNames } from '../names/module.ts';
import { entryNamed, kindNamed } from '../names/resolve.ts';
import { groundOf } from './ground.ts';
import { readQuantity, readSize } from './quantity.ts';
import { reportForeign, reportStrayed } from './strayed-figures.ts';
import { fitsKind } from './subkind.ts';

/** The kind of a thing of the protocol, for properties that name one (`tooth site`). */
export type ThingKinds = (name: string) => Kind | undefined;

/**
 * The values a block of properties fills in, each checked against what its kind declares.
 * @param set the set of figures that the block stands in; elsewhere no property that comes from a set has a value of its own
 */
export function readValues(
  module: Module,
  items: readonly Statement[],
  kind: Kind,
  things: ThingKinds,
  report: Report,
  set?: SetNote,
): Map<string, PropertyValue> {
  const values = new Map<string, PropertyValue>();
  for (const item of items) {
    if (item.type === 'relation') {
      for (const name of item.values)
        if (!kind.relations[item.relation].has(name.text))
          report(
            problemAt(valueOutsideSet, placeOf(module.id, item, name), {
              property: item.relation,
              of: kind.label,
              value: name.text,
              allowed: [...kind.relations[item.relation]],
              place: placeOf(module.id, item, name),
            }),
          );
      continue;
    }
    if (item.type !== 'value') continue;
    const property = kind.properties.get(item.name.text);
    if (!property) {
      const place = placeOf(module.id, item, item.name);
      report(
        problemAt(unknownProperty, place, {
          property: item.name.text,
          kind: kind.label,
          known: [...kind.properties.keys()],
          place,
        }),
      );
      continue;
    }
    if (property.name === 'amount') {
      report(
        problemAt(notJudged, placeOf(module.id, item, item.head), {
          what: 'an amount in braces: how much there is stands after the name, where the thing is listed',
        }),
      );
      continue;
    }
    if (property.from !== set?.group) {
      if (set) reportForeign(module, item, set, kind, report);
      else if (property.from !== undefined) reportStrayed(module, item, property.from, report);
      continue;
    }
    values.set(item.name.text, {
      name: item.name.text,
      values: item.values.flatMap((node) => readValue(module, item, node, property, things, report) ?? []),
      ground: groundOf(module.id, item, item),
      set,
    });
  }
  return values;
}

function readValue(
  module: Module,
  statement: ValueStatement,
  node: Expr,
  property: Property,
  things: ThingKinds,
  report: Report,
): Value | undefined {
  const type = property.type;
  const wrong = (wanted: string) => {
    report(problemAt(wrongValue, placeOf(module.id, statement, node), { property: property.name, wanted }));
    return undefined;
  };
  if (!type) return undefined;
  switch (type.form) {
    case 'quantity': {
      if (node.type !== 'quantity') return wrong(article(type.dimension));
      const quantity = readQuantity(module, statement, node, report);
      return quantity && checkQuantity(module, statement, node, property, type.dimension, quantity, report);
    }
    case 'size': {
      if (node.type !== 'size') return wrong('a size, such as 15 mm by 20 mm');
      const sides = readSize(module, statement, node, report);
      if (!sides) return undefined;
      for (const side of sides) checkPlausible(module, statement, node, property, side, report);
      return { type: 'size', sides };
    }
    case 'yes or no':
      return node.type === 'yes or no' ? { type: 'yes or no', value: node.value } : wrong('yes or no');
    case 'text':
      return node.type === 'text' ? { type: 'text', value: node.value } : wrong('a text in quotation marks');
    case 'number':
      return node.type === 'quantity' && node.low && !node.low.unit
        ? { type: 'number', value: node.low.value }
        : wrong('a number');
    case 'one of':
    case 'any of':
      return memberOf(module, statement, node, property, type, report);
    case 'kind': {
      if (node.type !== 'path') return wrong(`the name of a ${type.kind.text.replaceAll('_', ' ')}`);
      const [first] = node.names;
      if (!first) return undefined;
      const wanted = kindNamed(module, type.kind.text);
      const kind = things(first.text) ?? entryNamed(module, first.text)?.kind ?? kindNamed(module, first.text);
      const place = placeOf(module.id, statement, first);
      if (!kind) {
        report(
          problemAt(unknownName, place, {
            name: first.text,
            wanted: type.kind.text.replaceAll('_', ' '),
            candidates: visibleNames(module, 'entries'),
            library: module.elsewhere(['entries', 'kinds'], first.text),
            place,
          }),
        );
        return undefined;
      }
      if (wanted && !fitsKind(kind, wanted))
        report(
          problemAt(wrongKind, place, {
            thing: first.text,
            is: kind.label,
            wanted: wanted.label,
            asked: `${property.name} of ${property.owner.replaceAll('_', ' ')}`,
          }),
        );
      return { type: 'name', name: first.text };
    }
    default:
      return type satisfies never;
  }
}

/** A quantity where a property of some measure is stated: in that measure, and plausible; undefined when it is not. */
export function checkQuantity(
  module: Module,
  statement: Statement,
  node: Span,
  property: Property,
  wanted: string,
  quantity: Quantity,
  report: Report,
): Value | undefined {
  // Months and years are times as well: how long something heals is stated in them.
  if (wanted === 'time' && isCalendar(quantity.dimension)) return { type: 'quantity', quantity };
  const dimension = dimensionNamed(wanted);
  const fitted =
    dimension &&
    (commonDimension(quantity.dimension, dimension) ? (fitTo(quantity, dimension) ?? quantity) : undefined);
  if (dimension && !fitted) {
    report(
      problemAt(wrongMeasure, placeOf(module.id, statement, node), {
        what: property.name,
        wanted,
        found: quantity,
      }),
    );
    return undefined;
  }
  const value = fitted ?? quantity;
  checkPlausible(module, statement, node, property, value, report);
  return { type: 'quantity', quantity: value };
}

/**
 * A value outside what the kind takes for plausible is far more often a slip of the pen than a discovery.
 * @param written how it stands in the text, where it was turned into another measure
 */
export function checkPlausible(
  module: Module,
  statement: Statement,
  node: Span,
  property: Property,
  quantity: Quantity,
  report: Report,
  written?: Quantity,
): void {
  if (!property.within) return;
  const verdict = compare(quantity, 'within', property.within);
  if (verdict === 'always' || verdict === 'incomparable') return;
  const place = placeOf(module.id, statement, node);
  report(
    problemAt(outsidePlausible, place, {
      property: property.name,
      quantity,
      written,
      plausible: property.within,
      slip: written ? undefined : slipOf(quantity, property.within),
      ground: property.ground,
      source: module.citation(property.ground.source),
      place,
    }),
  );
}

function memberOf(
  module: Module,
  statement: Statement,
  node: Expr,
  property: Property,
  type: Extract<PropertyType, { form: 'one of' | 'any of' }>,
  report: Report,
): Value | undefined {
  const written =
    node.type === 'path'
      ? node.names.map((name) => name.text).join('.')
      : node.type === 'quantity' && node.form === 'plain' && node.low && !node.low.unit
        ? String(node.low.value)
        : undefined;
  if (written !== undefined && type.values.some((value) => value.text === written))
    return { type: 'name', name: written };
  const place = placeOf(module.id, statement, node);
  report(
    problemAt(valueOutsideSet, place, {
      property: property.name,
      of: property.owner.replaceAll('_', ' '),
      value: written ?? '',
      allowed: type.values.map((value) => value.text),
      place,
    }),
  );
  return undefined;
}
