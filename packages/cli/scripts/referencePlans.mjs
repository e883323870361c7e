// Computes data/reference/plans.json anew: `node packages/cli/scripts/referencePlans.mjs`, after `tsc -b`. Takes some minutes.
// Needed only when the equations or the list of plans change; a change of the mesh, the steps or the search must not need it.

import { writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { rolldown } from 'rolldown';

const cliDir = fileURLToPath(new URL('..', import.meta.url));
const target = fileURLToPath(new URL('../../../data/reference/plans.json', import.meta.url));

const bundle = await rolldown({
  cwd: cliDir,
  input: 'src/check/plans/makeReference.ts',
  platform: 'node',
});
const { output } = await bundle.generate({ format: 'esm' });
await bundle.close();
const source = `data:text/javascript;base64,${Buffer.from(output[0].code).toString('base64')}`;
/** @type {typeof import('../src/check/plans/makeReference.js')} */
const { makeReference, REFINED } = await import(source);

const plans = makeReference((id) => process.stderr.write(`${id}\n`));
const lines = plans.map(
  ({ id, words, figures }) =>
    `    { "id": ${JSON.stringify(id)}, "words": ${JSON.stringify(words)}, "figures": {\n${Object.entries(
      figures,
    )
      .map(([name, figure]) => `      ${JSON.stringify(name)}: ${JSON.stringify(figure)}`)
      .join(',\n')}\n    } }`,
);
const head = {
  topic: 'Thirty plans without the error of mesh, steps and search',
  method:
    'Each plan was solved with 1, 2 and 4 times 40 stations and 32 shells and steps of up to 20 s 1, 2 and 4 times shorter (refined), the pull found ' +
    'to 1e-5 K of the peak, and extrapolated after Richardson (packages/cli/src/check/plans/extrapolate.ts).',
  uncertainty:
    '1.25 times the distance from the finest solution to the extrapolated value; three times the last change where the three do not close in.',
  script: 'packages/cli/scripts/referencePlans.mjs',
  not_refined:
    'tables of properties and of the water held between half kelvins; what the equations leave out. These are references of the numerics, not of meat.',
  units: 'pullMinutes in minutes, all else in °C',
  refined_by: REFINED,
};
const text = `${JSON.stringify(head, null, 2).replace(/\n}$/, '')},\n  "plans": [\n${lines.join(',\n')}\n  ]\n}\n`;
JSON.parse(text);
await writeFile(target, text);
