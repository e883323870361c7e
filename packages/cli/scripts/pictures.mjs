// Makes the pictures in docs/images with the built command, as anybody would: `pnpm pictures`, after `pnpm build`.

import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../../..', import.meta.url));

/** Arguments of the command; each writes one file. */
const PICTURES = [
  ['--weight=2.2kg', '--oven=230C', '--quiet', '--chart=docs/images/plan.png'],
  ['compare', '--weight=2.2kg', '--chart=docs/images/ways.png'],
  [
    'card',
    ...['--weight=2.2kg', '--serve=18:30', '--name=Anna Lindqvist', '--pick-up=2026-12-24'],
    ...['--settings=data/demo/shop.yaml', '--out=docs/images/card-a5.png'],
  ],
  [
    'card',
    ...['--weight=2.5lb', '--cut=centre', '--oven=350F', '--doneness=medium', '--serve=7pm'],
    ...['--paper=letter', '--out=docs/images/card-letter.png'],
  ],
];

for (const args of PICTURES) {
  execFileSync(process.execPath, ['packages/cli/dist/main.js', ...args], {
    cwd: root,
    stdio: ['ignore', 'ignore', 'inherit'],
  });
}
