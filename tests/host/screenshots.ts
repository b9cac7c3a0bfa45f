import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join, relative, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { packageBuilt } from '../scripts/package.mjs';
import { root } from '../scripts/setup.mjs';
import { goToLine, problemsAreListed, runCommand, textIsDrawn, webviewFrame } from './page.ts';
import { requireBuild } from './run.ts';
import { startEditor } from './serve.ts';

/**
 * Takes pictures of the live editor per file: `NAME-problems.png`, the text with its problems; `NAME-times.png`, the first visit
 * with the times between its words; `NAME-checklist.png`, `-timeline`, `-tray` and `-problems-page`, with the preview beside it. All of
 * them in each of three themes, whose name comes last.
 * Arguments: files of `examples/`; none: the first draft. `--at WORDS`: the problem to go to is the first one with
 * these words, such as its code; where there is none, none is gone to. `CURETTE_SHOTS` names another folder than `out/screenshots`.
 */
const examples = join(root, 'examples');
const drafts = join(examples, 'drafts');
const { positionals, values } = parseArgs({ allowPositionals: true, options: { at: { type: 'string', default: '' } } });
const named = positionals.map((name) => resolve(name));
/** By the name that stands in the name of a picture, what the editor calls the theme. */
const themes = [
  ['light', 'Default Light Modern'],
  ['dark', 'Default Dark Modern'],
  ['contrast', 'Default High Contrast'],
] as const;
const files = named.length > 0 ? named : firstDraft();
const shots = resolve(process.env.CURETTE_SHOTS ?? join(root, 'out/screenshots'));

requireBuild();
mkdirSync(shots, { recursive: true });
// A copy: an editor that formats on save must not touch the examples.
const folder = realpathSync(mkdtempSync(join(tmpdir(), 'curette-shots-')));
const workspace = join(folder, basename(examples));
cpSync(examples, workspace, { recursive: true });
mkdirSync(join(workspace, '.vscode'), { recursive: true });
// Installed, as a person has it: a window for development says so in its title.
const editor = await startEditor(await packageBuilt());
try {
  for (const [theme, name] of themes) {
    writeFileSync(
      join(workspace, '.vscode/settings.json'),
      JSON.stringify({
        'editor.minimap.enabled': false,
        'editor.fontSize': 13,
        'workbench.colorTheme': name,
        // Only what is in the picture.
        'curette.checkWorkspace': false,
      }),
    );
    for (const file of files) await take(file, theme);
  }
} finally {
  await editor.close();
  rmSync(folder, { recursive: true, force: true });
}

async function take(file: string, theme: string): Promise<void> {
  const page = await editor.open(workspace, { file: join(workspace, relative(examples, file)) });
  const shot = async (what: string) => {
    const path = join(shots, `${basename(file, '.curette')}-${what}-${theme}.png`);
    // Away from what shows words of its own under the pointer.
    await page.mouse.move(720, 895);
    await page.waitForTimeout(700);
    await page.screenshot({ path });
    process.stdout.write(`${path}\n`);
  };
  await textIsDrawn(page);
  // The next window is as the last one was left.
  if (await page.locator('.part.sidebar').isVisible()) await runCommand(page, 'View: Close Primary Side Bar');
  await runCommand(page, 'Problems: Focus on Problems View');
  if (await problemsAreListed(page)) {
    const problem = page.locator('.markers-panel .monaco-list-row', {
      hasText: values.at,
      has: page.locator('.marker-icon'),
    });
    // The list draws only what is in view.
    await page.locator('.markers-panel .monaco-list').first().hover();
    const turn = async () => {
      await page.mouse.wheel(0, 60);
      await page.waitForTimeout(100);
    };
    if ((await problem.count()) === 0) {
      for (let turns = 40; turns > 0 && (await problem.count()) === 0; turns--) await turn();
      // What is drawn first is the upper edge of it.
      await turn();
    }
    // Brings its line of the text into view.
    if ((await problem.count()) > 0) await problem.first().locator('.marker-icon').click();
  } else process.stdout.write(`No problems are listed for ${file}.\n`);
  await shot('problems');
  await runCommand(page, 'View: Hide Panel');
  const visit = readFileSync(file, 'utf8')
    .split('\n')
    .findIndex((line) => /^\s*visit\b/.test(line));
  if (visit >= 0) {
    await goToLine(page, visit + 1);
    await shot('times');
  }
  await runCommand(page, 'Curette: Show Preview Beside the Text');
  const frame = await webviewFrame(page, '#preview-page h1, #preview-page p');
  for (const view of ['checklist', 'timeline', 'tray', 'problems']) {
    await frame.locator(`#preview-view-${view}`).click();
    await frame.locator(`#preview-panel[aria-labelledby="preview-view-${view}"]`).waitFor();
    await shot(view === 'problems' ? 'problems-page' : view);
  }
  await page.close();
}

function firstDraft(): string[] {
  const found = existsSync(drafts)
    ? readdirSync(drafts)
        .filter((name) => name.endsWith('.curette'))
        .sort()
    : [];
  if (found[0] === undefined) throw new Error('There is no draft in examples/drafts.');
  return [join(drafts, found[0])];
}
