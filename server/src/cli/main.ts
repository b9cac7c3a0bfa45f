import { Command, Option } from 'commander';
import { type CheckOptions, check } from './check.ts';
import { endQuietlyOnClosedPipe, UsageError } from './output.ts';
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
    '\nA drafting and teaching aid: local codes, product labelling and licensed practice come first.',
  );

program
  .command('check')
  .summary('find what is wrong in protocols')
  .description(
    'Finds what is wrong in protocols: files, or all .curette files below folders (here, when none is named).\n' +
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
  .addHelpText('after', `\n${STATUS()}`)
  .action((paths: string[], options: CheckOptions) => finish(() => check(paths, options)));

run();

function STATUS(): string {
  return [
    'Ends with 0 when there is nothing of that severity or worse, 1 when there is, 2 when it was called wrongly or a file',
    'could not be read.',
    '',
    'A workspace begins at the nearest folder above with a curette.json or a .git; where there is none, at the folder the',
    'command is run in, or at the folder of a file that lies elsewhere. What a protocol uses must lie inside it.',
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
