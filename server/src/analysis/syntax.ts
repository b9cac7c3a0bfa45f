import type { Flaw, Statement, SyntaxTree } from '@curette/grammar';
import { foreignSign } from '../problems/foreign_sign.ts';
import { mergeMarker } from '../problems/merge_marker.ts';
import { misplacedLine } from '../problems/misplaced_line.ts';
import { type FileId, type Place, type Problem, problemAt, type Report } from '../problems/problem.ts';
import { strayClose } from '../problems/stray_close.ts';
import { tooDeep } from '../problems/too_deep.ts';
import { unclosedBlock } from '../problems/unclosed_block.ts';
import { unclosedText } from '../problems/unclosed_text.ts';
import { unreadableLine } from '../problems/unreadable_line.ts';
import { unusableFile } from '../problems/unusable_file.ts';
import type { SourceFile } from './snapshot.ts';

/** What could not be read as the language, line by line. */
export function checkSyntax(file: SourceFile, report: Report): void {
  if (file.trouble) {
    const place: Place = { file: file.id, statement: 0, span: { start: 0, end: 0 } };
    report(problemAt(unusableFile, place, { path: file.id, trouble: file.trouble }));
    return;
  }
  for (const flaw of file.tree.flaws) report(wordFlaw(file.id, 0, flaw));
  const visit = (body: SyntaxTree['body']): void => {
    for (const item of body.items) {
      if (item.flaws.length > 0) for (const flaw of item.flaws) report(wordFlaw(file.id, item.id, flaw));
      if (item.body) visit(item.body);
    }
  };
  visit(file.tree.body);
}

function wordFlaw(file: FileId, statement: Statement['id'], flaw: Flaw): Problem {
  const place: Place = { file, statement, span: { start: flaw.start, end: flaw.end } };
  const data = { expected: flaw.expected, place };
  switch (flaw.code) {
    case 'unreadable':
      return problemAt(unreadableLine, place, data);
    case 'unclosed_text':
      return problemAt(unclosedText, place, data);
    case 'unclosed_block':
      return problemAt(unclosedBlock, place, data);
    case 'stray_close':
      return problemAt(strayClose, place, data);
    case 'merge_marker':
      return problemAt(mergeMarker, place, data);
    case 'foreign_sign':
      return problemAt(foreignSign, place, data);
    case 'misplaced':
      return problemAt(misplacedLine, place, data);
    case 'too_deep':
      return problemAt(tooDeep, place, data);
    default:
      return flaw.code satisfies never;
  }
}
