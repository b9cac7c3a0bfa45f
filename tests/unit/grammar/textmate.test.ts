import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { words } from '@curette/grammar';
import { beforeAll, describe, expect, test } from 'vitest';
import oniguruma from 'vscode-oniguruma';
import textmate, { type IGrammar } from 'vscode-textmate';
import { generate } from '../../../grammar/src/textmate.generate.ts';
import { sample } from './samples.ts';

const root = join(import.meta.dirname, '../../..');
let grammar: IGrammar;

beforeAll(async () => {
  const wasm = readFileSync(createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm'));
  await oniguruma.loadWASM(wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength));
  const registry = new textmate.Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
      createOnigString: (text) => new oniguruma.OnigString(text),
    }),
    loadGrammar: async () =>
      textmate.parseRawGrammar(
        readFileSync(join(root, 'grammar/curette.tmLanguage.json'), 'utf8'),
        'curette.tmLanguage.json',
      ),
  });
  const loaded = await registry.loadGrammar('source.curette');
  if (loaded === null) throw new Error('the grammar does not load');
  grammar = loaded;
});

/** Each coloured word of the text with its scope, without the common ending. */
function scopes(text: string): string[] {
  let state = textmate.INITIAL;
  return text.split('\n').flatMap((line) => {
    const { tokens, ruleStack } = grammar.tokenizeLine(line, state);
    state = ruleStack;
    return tokens
      .filter(({ scopes: all }) => all.length > 1)
      .map(
        ({ startIndex, endIndex, scopes: all }) =>
          `${line.slice(startIndex, endIndex)} ${all.at(-1)?.replace('.curette', '')}`,
      )
      .filter((shown) => !/^[{}(),:"]/.test(shown));
  });
}

test.each(generate().map(({ path, text }) => [path, text]))(
  '%s is current: "npm run generate" writes it',
  (path, text) => {
    expect(readFileSync(join(root, path), 'utf8')).toBe(text);
  },
);

describe('colours', () => {
  test('of a step', () => {
    expect(
      scopes(
        '    inject numbing 1.7 mL at site   takes 2..3 min usually 2 min by surgeon because "Pain" source s // why',
      ),
    ).toEqual([
      '1.7 constant.numeric',
      'mL keyword.other.unit',
      'at keyword.other.preposition',
      'takes keyword.other.clause',
      '2 constant.numeric',
      '.. keyword.operator',
      '3 constant.numeric',
      'min keyword.other.unit',
      'usually keyword.other.clause',
      '2 constant.numeric',
      'min keyword.other.unit',
      'by keyword.other.clause',
      'because keyword.other.clause',
      'Pain string.quoted.double',
      'source keyword.other.clause',
      '// why comment.line.double-slash',
    ]);
  });

  test('of declarations', () => {
    expect(
      scopes(
        '/// Doc.\nuse ../shared/policy\nkind graft "G" is material {\naction pack (graft g) into (site s) {\nprotocol p {\nvisit surgery {',
      ),
    ).toEqual([
      '/// Doc. comment.line.documentation',
      'use keyword.control.import',
      '../shared/policy string.unquoted.path',
      'kind storage.type',
      'graft entity.name.type',
      'G string.quoted.double',
      'is keyword.operator.word',
      'action storage.type',
      'pack entity.name.function',
      'into keyword.other.preposition',
      'protocol storage.type',
      'p entity.name.type',
      'visit storage.type',
      'surgery entity.name.type',
    ]);
  });

  test('of a kind', () => {
    expect(
      scopes(
        '  particle : length range within 1 um..5 mm\n  states dry -> wetted\n  must  end packed or gone\n  mineralised : yes or no\n  states : text',
      ),
    ).toEqual([
      'particle variable.other.property',
      'length support.type',
      ' range support.type',
      'within keyword.operator.word',
      '1 constant.numeric',
      'um keyword.other.unit',
      '.. keyword.operator',
      '5 constant.numeric',
      'mm keyword.other.unit',
      'states keyword.other.line',
      '-> keyword.operator',
      'must  end keyword.other.line',
      'or keyword.operator.word',
      'mineralised variable.other.property',
      'yes or no support.type',
      'states variable.other.property',
      'text support.type',
    ]);
  });

  test('of values that are numbers of another sort', () => {
    expect(
      scopes(
        '  version 1.0.0\n  status draft\n  reviewed 2026-02-01\n  dilution 1:100000\n  speed 800 /min\n  share 60 %\n  torque 35 N.cm\n  sharp yes',
      ),
    ).toEqual([
      'version keyword.other.line',
      '1.0.0 constant.numeric.version',
      'status keyword.other.line',
      'draft constant.language',
      'reviewed keyword.other.line',
      '2026-02-01 constant.numeric.date',
      '1 constant.numeric',
      '100000 constant.numeric',
      '800 constant.numeric',
      '/min keyword.other.unit',
      '60 constant.numeric',
      '% keyword.other.unit',
      '35 constant.numeric',
      'N.cm keyword.other.unit',
      'yes constant.language',
    ]);
  });

  test('a text ends with its line, so a lost quote colours that line only', () => {
    expect(scopes('note "lost\nnote "a \\" b"')).toEqual([
      'note keyword.other.line',
      'lost string.quoted.double',
      'note keyword.other.line',
      'a  string.quoted.double',
      '\\" constant.character.escape',
      ' b string.quoted.double',
    ]);
  });

  test('lines that a merge left are marked', () => {
    expect(scopes('<<<<<<< HEAD')).toEqual(['<<<<<<< HEAD invalid.illegal.merge-marker']);
  });

  test('of a set of figures that is applied, and not of a verb called so', () => {
    expect(scopes('apply leaflet because "Agreed"')).toEqual([
      'apply keyword.other.line',
      'leaflet entity.name.type',
      'because keyword.other.clause',
      'Agreed string.quoted.double',
    ]);
    expect(scopes('    apply gel to gum')).toEqual(['to keyword.other.preposition']);
  });

  test('every word that begins a line is coloured there, and not in the middle of a line', () => {
    for (const { word } of Object.values(words.lines).flat()) {
      expect(scopes(`  ${word} x`).join(), word).toMatch(/keyword\.other\.line|storage\.type|keyword\.control\.import/);
      if (!words.reserved.some((reserved) => word.split(' ').includes(reserved)))
        expect(scopes(`lay ${word}_2`), word).toEqual([]);
    }
  });

  test('every number of the sample is a number, and every unit behind one a unit', () => {
    const shown = scopes(sample);
    expect(shown.filter((line) => line.endsWith('constant.numeric')).length).toBeGreaterThan(50);
    const units = new Set(
      shown.filter((line) => line.endsWith('keyword.other.unit')).map((line) => line.split(' ')[0]),
    );
    expect([...units].sort()).toEqual(['cartridges', 'cm2', 'increments', 'kg', 'mL', 'mg', 'min', 'mm', 'mo', 'um']);
  });
});

describe('the editor', () => {
  const configuration = JSON.parse(readFileSync(join(root, 'grammar/language-configuration.json'), 'utf8'));

  test('takes a name of any alphabet as one word', () => {
    const pattern = new RegExp(configuration.wordPattern.pattern, `${configuration.wordPattern.flags}g`);
    expect('lay Größe_2 on ось'.match(pattern)).toEqual(['lay', 'Größe_2', 'on', 'ось']);
  });

  test('indents behind an opening brace that is no text and no comment, and back at a closing one', () => {
    const deeper = new RegExp(configuration.indentationRules.increaseIndentPattern.pattern);
    const back = new RegExp(configuration.indentationRules.decreaseIndentPattern.pattern);
    expect(['visit v {', '  option lost { // why', 'protocol p "T {x}" {'].every((line) => deeper.test(line))).toBe(
      true,
    );
    expect(['note "a {"', '// kind k {', 'option lost { }'].some((line) => deeper.test(line))).toBe(false);
    expect(back.test('  }')).toBe(true);
  });

  test('goes on with a doc comment on the next line', () => {
    const [rule] = configuration.onEnterRules;
    expect(new RegExp(rule.beforeText.pattern).test('  /// What fills a defect.')).toBe(true);
    expect(new RegExp(rule.beforeText.pattern).test('  // a remark')).toBe(false);
    expect(rule.action.appendText).toBe('/// ');
  });
});
