import type { DeclaredUnits } from '@curette/shared';
import { interpretQuantity } from '../kinds/quantity.ts';
import type { Module } from '../names/module.ts';
import { once } from '../once.ts';

/**
 * How a case's lines are read: places are in the case's file; a name or unit means what it does there, or else what it means to the
 * protocol, so that a case needs to use no file but its protocol's.
 */
export function readingModule(module: Module, protocol: Module): Module {
  if (module === protocol) return module;
  const units = once((): DeclaredUnits => new Map([...protocol.units(), ...module.units()]));
  return {
    ...module,
    visible: [...module.visible, ...protocol.visible.filter((scope) => !module.visible.includes(scope))],
    module: (id) => module.module(id),
    units,
    quantity: (node) => {
      const reading = interpretQuantity(node, units());
      return reading.ok ? reading.quantity : undefined;
    },
    citation: (source) => module.citation(source) ?? protocol.citation(source),
  };
}
