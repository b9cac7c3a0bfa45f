#!/usr/bin/env node
import { existsSync } from 'node:fs';

// The command is bundled by the build; npm links this file, which is there before the first build.
const bundle = new URL('../dist/curette.js', import.meta.url);
if (!existsSync(bundle)) {
  process.stderr.write('curette is not built yet. Run "npm run build" in the project folder first.\n');
  process.exit(2);
}
await import(bundle.href);
