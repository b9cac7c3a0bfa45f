import type { Name, Statement } from '@curette/grammar';
import { problemAt, type Report } from '../../problems/problem.ts';
import { unknownName } from '../../problems/unknown_name.ts';
import { placeOf } from '../model.ts';
import { type Module, visibleNames } from '../names/module.ts';
import { pauseNamed } from '../names/resolve.ts';

/** Whether a name is a declared pause; reported when it is not. */
export function checkPause(module: Module, statement: Statement, name: Name, report: Report): boolean {
  if (pauseNamed(module, name.text)) return true;
  const place = placeOf(module.id, statement, name);
  report(
    problemAt(unknownName, place, {
      name: name.text,
      wanted: 'pause',
      candidates: visibleNames(module, 'pauses'),
      library: module.elsewhere(['pauses'], name.text),
      place,
    }),
  );
  return false;
}
