import type { PropertyValue } from '../model.ts';

/** What a case says of its protocol: the same protocol with this in place of ranges and open findings is the case's. */
export interface Filled {
  /** values by thing, then by property */
  readonly values: ReadonlyMap<string, ReadonlyMap<string, PropertyValue>>;
  /** what applies to each given thing: `has diabetes`, `allergic to latex`; what is not listed does not apply */
  readonly conditions: ReadonlyMap<string, ReadonlySet<string>>;
  /** what is found, by finding */
  readonly found: ReadonlyMap<string, string>;
}
