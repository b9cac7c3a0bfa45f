// npm run bench. Prints medians, and beside them what others take in the same run; judges nothing.
import { parseArgs } from 'node:util';
import { machine } from './figures.ts';
import { keystrokes } from './keystroke.ts';
import { namesInManyFiles } from './names.ts';
import { measureParse, parseOnce, parsing } from './parse.ts';
import { installPeers } from './peers.ts';
import { longSession } from './session.ts';
import { latencies } from './stdio.ts';
import { timing } from './time.ts';

if (process.argv[2] === parseOnce) {
  measureParse(Number(process.argv[3]));
  process.exit();
}

const SECTIONS = ['parse', 'keystroke', 'names', 'time', 'session', 'stdio'] as const;

const { values } = parseArgs({
  options: {
    quick: { type: 'boolean', default: false },
    only: { type: 'string' },
    lines: { type: 'string', default: '100,1000,5000' },
    'no-peers': { type: 'boolean', default: false },
  },
});
const only = SECTIONS.find((section) => section === values.only);
if (values.only !== undefined && only === undefined) {
  process.stderr.write(`--only ${values.only}: there are ${SECTIONS.join(', ')}.\n`);
  process.exit(2);
}

const wanted = (section: (typeof SECTIONS)[number]): boolean => only === undefined || only === section;
const { quick } = values;
const sizes = values.lines.split(',').map(Number);
if (sizes.some((lines) => !(lines >= 60))) {
  process.stderr.write(`--lines ${values.lines}: numbers of 60 or more, with commas between them.\n`);
  process.exit(2);
}
const peers =
  values['no-peers'] || only === 'keystroke' || only === 'names' || only === 'time' || only === 'session'
    ? undefined
    : installPeers();

if (wanted('parse')) show('Text → typed tree', parsing({ quick, peers }));
if (wanted('keystroke')) show('Keystroke → facts, in one process', keystrokes({ quick, sizes }));
if (wanted('names')) show('Names in very many files', await namesInManyFiles({ quick }));
if (wanted('time')) show('Whether the limits of a visit can be kept', await timing({ quick }));
if (wanted('session')) show('A long session at random', await longSession({ quick }));
if (wanted('stdio'))
  show('Edit → diagnostics over standard input and output', await latencies({ quick, sizes, peers }));
process.stdout.write(`\n${machine()}\n`);

function show(title: string, text: string): void {
  process.stdout.write(`\n## ${title}\n\n${text}\n`);
}
