import { fileURLToPath } from 'node:url';
import { Application, Logger, type LogLevel } from 'typedoc';
import { expect, test } from 'vitest';

const SETTINGS = fileURLToPath(new URL('../../typedoc.json', import.meta.url));

/** Keeps what is said instead of printing it. */
class Listener extends Logger {
  readonly heard: string[] = [];
  override log(message: string, level: LogLevel): void {
    if (level >= 2) this.heard.push(message); // warnings and errors
  }
}

// the pages themselves are made by `pnpm api`, which stops at the same warnings
test('the API pages can be made, and every link in them leads somewhere', async () => {
  const app = await Application.bootstrapWithPlugins({ options: SETTINGS });
  const listener = new Listener();
  app.logger = listener;
  const project = await app.convert();
  if (project === undefined) throw new Error(listener.heard.join('\n'));
  app.validate(project);
  expect(listener.heard).toEqual([]);
  expect(project.children?.length).toBeGreaterThan(300);
}, 120_000);
