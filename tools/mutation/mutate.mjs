// Mutation testing, room by room: changes the code in many small ways and counts how many of them a test notices.
//
//     pnpm mutate                      every room
//     pnpm mutate heat                 one room
//     pnpm mutate heat stepper.ts      one file of it
//
// Results of earlier runs are kept in build/mutation/ and only what changed since is tried again. Takes up to an hour a room.

import { mkdir, readFile } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { Stryker } from '@stryker-mutator/core';
import { scoresOf, tableOf } from './scores.mjs';

/** Rooms of packages/core/src; each has its suite, the tests that cover it and take seconds. */
const ROOMS = ['shape', 'judge', 'heat'];
const LEAST_SCORE = 80; // per cent; below, the command fails

process.chdir(fileURLToPath(new URL('../..', import.meta.url)));
const [asked, file = '*.ts'] = process.argv.slice(2);
if (asked !== undefined && !ROOMS.includes(asked)) {
  process.stderr.write(`there is no room ${asked}; there are ${ROOMS.join(', ')}\n`);
  process.exit(2);
}
await mkdir('build/mutation', { recursive: true });

for (const room of asked === undefined ? ROOMS : [asked]) {
  process.env.MUTATED_ROOM = room; // read by vitest.config.ts in the runners
  const report = path.join('build/mutation', `${room}.json`);
  await new Stryker({
    mutate: [`packages/core/src/${room}/${file}`, `!packages/core/src/${room}/index.ts`],
    testRunner: 'vitest',
    vitest: { configFile: 'tools/mutation/vitest.config.ts', related: false },
    plugins: ['@stryker-mutator/vitest-runner'],
    coverageAnalysis: 'perTest',
    ignoreStatic: false,
    disableTypeChecks: false,
    ignorePatterns: ['build', 'docs', 'packages/*/{build,dist}'],
    concurrency: Number(process.env.MUTATE_CONCURRENCY ?? Math.max(1, availableParallelism() - 1)),
    timeoutMS: 10_000,
    timeoutFactor: 2,
    dryRunTimeoutMinutes: 10,
    incremental: true,
    incrementalFile: path.join('build/mutation', `${room}.incremental.json`),
    reporters: ['json', 'progress-append-only'],
    jsonReporter: { fileName: report },
    thresholds: { high: 90, low: LEAST_SCORE, break: null },
    tempDirName: 'build/mutation/sandbox',
    allowConsoleColors: false,
  }).runMutationTest();
  const scores = scoresOf(JSON.parse(await readFile(report, 'utf8')));
  process.stdout.write(`\n${tableOf(room, scores)}\n`);
  if (scores.room.score < LEAST_SCORE) process.exitCode = 1;
}
