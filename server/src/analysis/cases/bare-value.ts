import type { Expr, PropertyType } from '@curette/grammar';
import { commonDimension, dimensionNamed, isCalendar } from '@curette/shared';
import { fitsKind } from '../kinds/subkind.ts';
import type { Kind } from '../model.ts';
import type { Module } from '../names/module.ts';
import { entryNamed, kindNamed } from '../names/resolve.ts';
import type { Things } from '../protocol/things.ts';

/** The properties of a kind that a value written without a name may be meant for: `site 14` is the tooth's number. */
export function propertiesFitting(module: Module, kind: Kind, node: Expr, things: Things): string[] {
  return [...kind.properties.values()]
    .filter(({ type }) => type !== undefined && fits(module, type, node, things))
    .map(({ name }) => name);
}

function fits(module: Module, type: PropertyType, node: Expr, things: Things): boolean {
  switch (type.form) {
    case 'quantity': {
      const quantity = node.type === 'quantity' ? module.quantity(node) : undefined;
      if (!quantity) return false;
      if (type.dimension === 'time' && isCalendar(quantity.dimension)) return true;
      const dimension = dimensionNamed(type.dimension);
      return dimension !== undefined && commonDimension(quantity.dimension, dimension) !== undefined;
    }
    case 'size':
      return node.type === 'size';
    case 'yes or no':
      return node.type === 'yes or no';
    case 'text':
      return node.type === 'text';
    case 'number':
      return node.type === 'quantity' && node.form === 'plain' && node.low !== undefined && !node.low.unit;
    case 'one of':
    case 'any of': {
      const written = wordOf(node);
      return written !== undefined && type.values.some((value) => value.text === written);
    }
    case 'kind': {
      const [name] = node.type === 'path' ? node.names : [];
      const wanted = kindNamed(module, type.kind.text);
      const kind = name && (things.byName.get(name.text)?.kind ?? entryNamed(module, name.text)?.kind);
      return kind !== undefined && wanted !== undefined && fitsKind(kind, wanted);
    }
    default:
      return type satisfies never;
  }
}

function wordOf(node: Expr): string | undefined {
  if (node.type === 'path') return node.names.map((name) => name.text).join('.');
  return node.type === 'quantity' && node.form === 'plain' && node.low && !node.low.unit
    ? String(node.low.value)
    : undefined;
}
