// npm run demo: shows what Curette finds in a draft with mistakes, and writes the checklists of the sound protocols.
import { existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { build } from './build.mjs';
import { ensureInstalled, Failure, main, root, run } from './setup.mjs';

const examples = join(root, 'examples');
const drafts = join(examples, 'drafts');
const out = join(root, 'out');

await main(async () => {
  await ensureInstalled();
  await build();

  heading('A draft with mistakes');
  const faulty = protocolsIn(drafts);
  if (faulty.length === 0) throw new Failure('There is no draft in examples/drafts to show.');
  const status = await curette(['check', ...faulty], [1]);
  if (status !== 1) throw new Failure('The draft was made with mistakes, and none was found.');

  heading('The sound protocols of the same institution');
  const sound = protocolsIn(examples).filter((file) => !faulty.includes(file));
  if (sound.length === 0) throw new Failure('There is no sound protocol in examples.');
  await curette(['check', ...sound]);

  heading('Their checklists');
  mkdirSync(out, { recursive: true });
  for (const file of sound) {
    for (const [, protocol = ''] of readFileSync(join(root, file), 'utf8').matchAll(/^protocol\s+([\w-]+)/gm)) {
      for (const format of ['html', 'md']) {
        const page = join('out', `${protocol}.${format}`);
        await curette(['checklist', file, '--protocol', protocol, '--format', format, '--out', page]);
        if (!existsSync(join(root, page))) throw new Failure(`${page} was not written.`);
        process.stdout.write(`${join(root, page)}\n`);
      }
    }
  }
});

function curette(args, allow = []) {
  return run(process.execPath, ['server/bin/curette.mjs', ...args], { allow });
}

/** Files under a folder, as paths from the project's root, in a stable order. */
function protocolsIn(folder) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true })
    .filter((name) => name.endsWith('.curette'))
    .map((name) => relative(root, join(folder, name)))
    .sort();
}

function heading(text) {
  process.stdout.write(`\n${text}\n${'-'.repeat(text.length)}\n\n`);
}
