#!/usr/bin/env node
import { readFileSync } from 'node:fs';
import { Command } from 'commander';

const manifest: { version: string; description: string } = JSON.parse(
  readFileSync(new URL('../package.json', import.meta.url), 'utf8'),
);

await new Command('roastsim')
  .description(manifest.description)
  .version(manifest.version)
  .parseAsync();
