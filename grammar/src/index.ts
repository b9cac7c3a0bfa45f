export { type FormatOptions, type Formatted, format } from './format/format.ts';
export { braceIndentation, indentation } from './format/indent.ts';
export { parse } from './parse.ts';
export { reparse } from './reparse.ts';
export type { Change } from './splice.ts';
export { type Token, tokenize } from './tokenize.ts';
export type * from './tree.ts';
export { forEachStatement, lastStarting, type Placed, pathAt } from './walk.ts';
export { type LineWord, words } from './words.ts';
