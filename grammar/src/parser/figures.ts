/** Sets of figures that disagree, and which of them counts. */
import { AnyWord, Of } from '../tokens.ts';
import type { ApplyStatement, FigureStatement, FiguresStatement, Name } from '../tree.ts';
import { DeclarationParser } from './declarations.ts';

export abstract class FigureParser extends DeclarationParser {
  /** `figures label_ceilings "Ceilings on labels" of ceilings` */
  figuresLine = this.RULE('figuresLine', (): FiguresStatement => {
    const { name, label } = this.SUBRULE(this.title);
    let group: Name | undefined;
    let said = false;
    this.OPTION(() => {
      this.CONSUME(Of);
      said = true;
      group = this.SUBRULE(this.name, { ARGS: ['the group of sets that it belongs to'] });
    });
    if (!said) this.lack('"of" and the group of sets that it belongs to');
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'figures', name, label, group };
  });

  /** `articaine` in a set, before what the set says of it */
  figureLine = this.RULE('figureLine', (): FigureStatement => {
    const name = this.named(this.CONSUME(AnyWord));
    const { id, length, head, doc, flaws, body } = this.base;
    return { id, length, head, doc, flaws, body, type: 'figure', name };
  });

  /** `apply label_ceilings because "…"` */
  applyLine = this.RULE('applyLine', (): ApplyStatement => {
    this.CONSUME(AnyWord);
    const name = this.SUBRULE(this.name, { ARGS: ['a set of figures'] });
    this.SUBRULE(this.grounds);
    const { id, length, head, doc, flaws, body } = this.base;
    const { because, source } = this;
    return { id, length, head, doc, flaws, body, type: 'apply', name, because, source };
  });
}
