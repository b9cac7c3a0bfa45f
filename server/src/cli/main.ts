import { Command, Option } from 'commander';
import { type CheckOptions, check } from './check.ts';
import { type ChecklistOptions, checklist } from './checklist.ts';
import { type DueOptions, due } from './due.ts';
import { explain } from './explain.ts';
import { type FormatOptions, format } from './format.ts';
import { endQuietlyOnClosedPipe, UsageError } from './output.ts';
import { serve } from './serve.ts';
import { type TimelineOptions, timeline } from './timeline.ts';
import { type TrayOptions, tray } from './tray.ts';
import { toolVersion } from './version.ts';

endQuietlyOnClosedPipe();

const program = new Command('curette')
  .description('Checks surgical protocols written in the Curette language, and makes their checklists.')
  .version(toolVersion, '--version', 'show the version')
  .helpOption('--help', 'show this help')
  .helpCommand(false)
  .showHelpAfterError('(curette --help shows what there is)')
  .exitOverride()
  .addHelpText(
    'after',
    '\nA drafting and teaching aid: local codes, product labelling and licensed practice\ncome first.',
  );

program
  .command('check')
  .summary('find what is wrong in protocols')
  .description(
    'Finds what is wrong in protocols: files, or all .curette files below folders (here, when none is named). ' +
      'Folders named node_modules, and hidden ones, are passed over.',
  )
  .argument('[paths...]', 'files and folders')
  .addOption(
    new Option('--format <format>', 'text to read, or json for programs').choices(['text', 'json']).default('text'),
  )
  .addOption(
    new Option('--fail-on <severity>', 'the least that counts as a failure')
      .choices(['error', 'warning'])
      .default('error'),
  )
  .addHelpText('after', `\n${statusHelp()}`)
  .action((paths: string[], options: CheckOptions) => finish(() => check(paths, options)));

program
  .command('checklist')
  .summary("make a protocol's checklist")
  .description(
    "Makes a protocol's checklist, to read, to print (A4 or Letter) and to hold in the room. One with errors is made too, " +
      'and is marked as not fit for use on every page.',
  )
  .argument('<file>', 'the file that declares the protocol, or the case')
  .option('--protocol <name>', 'which one, when the file declares several')
  .option(
    '--case <name>',
    'a case that the file declares: its protocol with its facts, what remains of its options, its dates',
  )
  .addOption(
    new Option('--format <format>', 'Markdown, or one HTML page that needs nothing else')
      .choices(['md', 'html'])
      .default('md'),
  )
  .option('--out <file>', 'write to a file, whole or not at all, instead of the terminal')
  .addHelpText(
    'after',
    '\nEnds with 0 when it was made, 2 when it was called wrongly or a file could not be\nread or written.',
  )
  .action((file: string, options: ChecklistOptions) => finish(() => checklist(file, options)));

program
  .command('timeline')
  .summary('show when the steps of a protocol can take place')
  .description(
    'Shows when each step of a protocol can begin and how long the chair is occupied, who waits, and the clocks that run: in the ' +
      'quickest and in the slowest run that its stated times allow. One with errors is shown too, and is marked as not fit for use.',
  )
  .argument('<file>', 'the file that declares the protocol, or the case')
  .option('--protocol <name>', 'which one, when the file declares several')
  .option(
    '--case <name>',
    'a case that the file declares: its protocol with its facts, what remains of its options, its dates',
  )
  .addOption(
    new Option('--format <format>', 'text to read, one SVG image that needs nothing else, or json for programs')
      .choices(['text', 'svg', 'json'])
      .default('text'),
  )
  .option('--out <file>', 'write to a file, whole or not at all, instead of the terminal')
  .option(
    '--first <date>',
    'the day of the first visit (2027-01-31): shows between which open days each visit can be; closed days stand in curette.json',
  )
  .addHelpText(
    'after',
    '\nEnds with 0 when it was made, 2 when it was called wrongly or a file could not be\nread or written.',
  )
  .action((file: string, options: TimelineOptions) => finish(() => timeline(file, options)));

program
  .command('format')
  .summary('lay protocols out')
  .description(
    'Gives protocols the one layout of the language: files, or all .curette files below folders (here, when none is named). ' +
      'Words and comments stay; a file with something in it that cannot be read is named and left as it is.',
  )
  .argument('[paths...]', 'files and folders')
  .option('--check', 'write nothing, only say which files would change')
  .addHelpText(
    'after',
    '\nEnds with 0 when all are laid out, 1 with --check when some would change, 2 when it\n' +
      'was called wrongly or a file could not be read or written.',
  )
  .action((paths: string[], options: FormatOptions) => finish(() => format(paths, options)));

program
  .command('tray')
  .summary('list what has to be laid out for each visit')
  .description(
    'Lists the materials and instruments of each visit in the order in which its steps need them, what is used up of them, and what is ' +
      'needed only in some circumstances.',
  )
  .argument('<file>', 'the file that declares the protocol, or the case')
  .option('--protocol <name>', 'which one, when the file declares several')
  .option('--case <name>', 'a case that the file declares: what remains of its options, its dates')
  .addOption(
    new Option('--format <format>', 'Markdown, one HTML page that needs nothing else, or json for programs')
      .choices(['md', 'html', 'json'])
      .default('md'),
  )
  .option('--out <file>', 'write to a file, whole or not at all, instead of the terminal')
  .addHelpText(
    'after',
    '\nEnds with 0 when it was made, 2 when it was called wrongly or a file could not be\nread or written.',
  )
  .action((file: string, options: TrayOptions) => finish(() => tray(file, options)));

program
  .command('serve')
  .summary('check while somebody types, in any editor')
  .description('Runs the language server for an editor that speaks the language server protocol; the editor starts it.')
  .option('--stdio', 'speak over standard input and output, which is what happens anyway')
  .action(() => finish(serve));

program
  .command('due')
  .summary('list the protocols whose review is due')
  .description(
    'Lists the protocols whose review is overdue, or falls due soon, oldest first: counted from the last review or, without one, from the ' +
      'approval. Drafts and retired protocols are not asked.',
  )
  .argument('[paths...]', 'files and folders')
  .option('--on <date>', 'the day that is asked about (2027-01-31); today, when none is given')
  .option('--within <days>', 'how many days ahead', '60')
  .addOption(
    new Option('--format <format>', 'text to read, or json for programs').choices(['text', 'json']).default('text'),
  )
  .addHelpText(
    'after',
    '\nEnds with 0 when none is overdue, 1 when one is, 2 when it was called wrongly or a\nfile could not be read.',
  )
  .action((paths: string[], options: DueOptions) => finish(() => due(paths, options)));

program
  .command('explain')
  .summary('explain a problem or a rule')
  .description(
    'Prints the page about a kind of problem, with an example, or about a rule: what it asks for, why, and what it rests on. ' +
      'Rules are looked for in the shipped library and in the protocols below the folder the command is run in.',
  )
  .argument('<code>', 'as it stands to the right of a problem: a code, or the name of a rule')
  .action((code: string) => finish(() => explain(code)));

run();

function statusHelp(): string {
  return [
    'Ends with 0 when there is nothing of that severity or worse, 1 when there is,',
    '2 when it was called wrongly or a file could not be read.',
    '',
    'A workspace begins at the nearest folder above with a curette.json or a .git;',
    'where there is none, at the folder the command is run in, or at the folder of a',
    'file that lies elsewhere. What a protocol uses must lie inside it.',
  ].join('\n');
}

/** Ends with the status that the work answers; a mistake in the call is told in its own sentence. */
function finish(work: () => number): void {
  try {
    process.exitCode = work();
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    process.stderr.write(`${error.message}\n`);
    process.exitCode = 2;
  }
}

function run(): void {
  try {
    program.parse();
  } catch (error) {
    // Commander has told it already; help and version end with 0, a wrong call with 2 as everything of that sort does.
    const exitCode = error instanceof Error && 'exitCode' in error ? error.exitCode : undefined;
    if (typeof exitCode !== 'number') throw error;
    process.exitCode = exitCode === 0 ? 0 : 2;
  }
}
