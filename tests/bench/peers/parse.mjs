// MB/s of general-purpose parsers on the same list of steps, each in its own syntax. One parser and one size a process:
//   node parse.mjs NAME KB
// prints { bytes, steps, times } as JSON: three runs to warm up, then nine. With no arguments, the names.
import { CstParser, createToken, EmbeddedActionsParser, Lexer } from 'chevrotain';
import { grammar } from './steps-grammar.mjs';

const syntax = {
  json: [
    '{ "steps": [\n',
    (i) => `  { "id": ${i}, "name": "step ${i}", "takes": [5, 10], "unit": "min" },\n`,
    '  {}\n]}\n',
  ],
  ts: [
    "type Step = { id: number; name: string; after?: Step; takes: [number, number]; unit: 'min' | 'h' | 'd' };\n",
    (i) =>
      `export const step${i}: Step = { id: ${i}, name: 'step ${i}', after: step${i - 1}, takes: [5, 10], unit: 'min' };\n`,
    '',
  ],
  yaml: ['steps:\n', (i) => `  - {id: ${i}, name: step ${i}, takes: [5, 10], unit: min}\n`, ''],
  steps: [
    'steps {\n  step t0 after none takes 5..10 min\n',
    (i) => `  step t${i} after t${i - 1} takes 5..10 min\n`,
    '}\n',
  ],
};

/** [syntax, () => the parser, how many steps it found]: what it found shows that it really read the text. */
const parsers = {
  'JSON.parse': ['json', () => JSON.parse, (found) => found.steps.length - 1],
  'JSON language service': [
    'json',
    async () => {
      const { default: service } = await import('vscode-json-languageservice');
      const json = service.getLanguageService({});
      return (text) => json.parseJSONDocument(service.TextDocument.create('mem:a', 'json', 1, text));
    },
    (found) => found.root.properties[0].valueNode.items.length - 1,
  ],
  TypeScript: [
    'ts',
    async () => {
      const { default: ts } = await import('typescript');
      return (text) => ts.createSourceFile('a.ts', text, ts.ScriptTarget.Latest, false);
    },
    (found) => found.statements.length - 1,
  ],
  YAML: ['yaml', async () => (await import('yaml')).parseDocument, (found) => found.get('steps').items.length],
  Langium: [
    'steps',
    async () => {
      const { createServicesForGrammar } = await import('langium/grammar');
      const { parser } = await createServicesForGrammar({ grammar });
      return (text) => parser.LangiumParser.parse(text);
    },
    (found) => (found.parserErrors.length > 0 ? Number.NaN : found.value.steps.length - 1),
  ],
  'Chevrotain, its own tree': ['steps', () => toy(tree), (found) => found.children.step.length - 1],
  'Chevrotain, plain objects': ['steps', () => toy(objects), (found) => found.length - 1],
};

const [name, kB] = process.argv.slice(2);
if (name === undefined) {
  console.log(JSON.stringify(Object.keys(parsers)));
} else {
  const [kind, make, count] = parsers[name];
  const [head, line, foot] = syntax[kind];
  let text = head;
  let steps = 0;
  for (let i = 1; text.length < Number(kB) * 1000; i++, steps++) text += line(i);
  text += foot;
  const parse = await make();
  const found = count(parse(text));
  if (found !== steps) throw new Error(`${name} found ${found} of ${steps} steps`);
  const times = [];
  for (let run = -3; run < 9; run++) {
    const began = performance.now();
    parse(text);
    if (run >= 0) times.push(performance.now() - began);
  }
  console.log(JSON.stringify({ bytes: text.length, steps, times }));
}

/** The toy language by hand on Chevrotain. */
function toy(build) {
  const ID = createToken({ name: 'ID', pattern: /[_a-zA-Z]\w*/ });
  const keyword = (word) => createToken({ name: `Kw${word}`, pattern: word, longer_alt: ID });
  const [Steps, Step, After, None, Takes, ...units] = ['steps', 'step', 'after', 'none', 'takes', 'min', 'h', 'd'].map(
    keyword,
  );
  const Int = createToken({ name: 'Int', pattern: /[0-9]+/ });
  const Open = createToken({ name: 'Open', pattern: '{' });
  const Close = createToken({ name: 'Close', pattern: '}' });
  const Dots = createToken({ name: 'Dots', pattern: '..' });
  const Space = createToken({ name: 'Space', pattern: /\s+/, group: Lexer.SKIPPED, line_breaks: true });
  const tokens = [Space, Steps, Step, After, None, Takes, ...units, ID, Int, Open, Close, Dots];
  const lexer = new Lexer(tokens, { positionTracking: 'onlyOffset', ensureOptimizations: true });
  const parser = build({ tokens, Steps, Step, After, None, Takes, units, ID, Int, Open, Close, Dots });
  return (text) => {
    parser.input = lexer.tokenize(text).tokens;
    const result = parser.model();
    if (parser.errors.length > 0) throw parser.errors[0];
    return result;
  };
}

function tree({ tokens, Steps, Step, After, None, Takes, units, ID, Int, Open, Close, Dots }) {
  return new (class extends CstParser {
    constructor() {
      super(tokens, { recoveryEnabled: true });
      const unit = this.RULE('unit', () => this.OR(units.map((type) => ({ ALT: () => this.CONSUME(type) }))));
      const step = this.RULE('step', () => {
        this.CONSUME(Step);
        this.CONSUME(ID);
        this.CONSUME(After);
        this.OR([{ ALT: () => this.CONSUME2(ID) }, { ALT: () => this.CONSUME(None) }]);
        this.CONSUME(Takes);
        this.CONSUME(Int);
        this.CONSUME(Dots);
        this.CONSUME2(Int);
        this.SUBRULE(unit);
      });
      this.RULE('model', () => {
        this.CONSUME(Steps);
        this.CONSUME(Open);
        this.MANY(() => this.SUBRULE(step));
        this.CONSUME(Close);
      });
      this.performSelfAnalysis();
    }
  })();
}

function objects({ tokens, Steps, Step, After, None, Takes, units, ID, Int, Open, Close, Dots }) {
  return new (class extends EmbeddedActionsParser {
    constructor() {
      super(tokens, { recoveryEnabled: true });
      const unit = this.RULE('unit', () => this.OR(units.map((type) => ({ ALT: () => this.CONSUME(type).image }))));
      const step = this.RULE('step', () => {
        const start = this.CONSUME(Step).startOffset;
        const name = this.CONSUME(ID).image;
        this.CONSUME(After);
        const before = this.OR([{ ALT: () => this.CONSUME2(ID).image }, { ALT: () => void this.CONSUME(None) }]);
        this.CONSUME(Takes);
        const min = Number(this.CONSUME(Int).image);
        this.CONSUME(Dots);
        const max = Number(this.CONSUME2(Int).image);
        return { start, name, before, min, max, unit: this.SUBRULE(unit) };
      });
      this.RULE('model', () => {
        const steps = [];
        this.CONSUME(Steps);
        this.CONSUME(Open);
        this.MANY(() => steps.push(this.SUBRULE(step)));
        this.CONSUME(Close);
        return steps;
      });
      this.performSelfAnalysis();
    }
  })();
}
