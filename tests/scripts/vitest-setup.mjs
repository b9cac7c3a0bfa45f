// Before any test: the shipped library, as a module, is made from its files as they are now.
import { writeLibrary } from './generate.mjs';

export default function setup() {
  writeLibrary();
}
