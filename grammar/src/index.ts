export { parse } from './parse.ts';
export { type Change, reparse } from './reparse.ts';
export { type Token, tokenize } from './tokenize.ts';
export type * from './tree.ts';
export { forEachStatement, type Placed, pathAt } from './walk.ts';
export { type LineWord, words } from './words.ts';
