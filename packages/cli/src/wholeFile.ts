import { randomUUID } from 'node:crypto';
import { open, rename, rm, stat } from 'node:fs/promises';
import path from 'node:path';
import { RoastError } from '@roastsim/core';
import { printable } from './read/index.js';

/** A place that has been opened for a file, before the work that fills it. */
export interface Reserved {
  /** Puts the whole content in place at once. */
  readonly fill: (content: Uint8Array | string) => Promise<void>;
  /** Leaves nothing behind. */
  readonly drop: () => Promise<void>;
}

/**
 * Reserves a file by opening a temporary one beside it: a folder that is missing or closed is told before any work is done, and the
 * target appears only when it is complete.
 *
 * @throws RoastError `unwritable`
 */
export async function reserve(file: string, option: string): Promise<Reserved> {
  const temporary = path.join(path.dirname(file), `.${path.basename(file)}.${randomUUID()}.part`);
  const refuse = (error: unknown): never => {
    const reason = REASONS[(error as NodeJS.ErrnoException).code ?? ''] ?? 'it cannot be written';
    const accepted = 'a file in a folder that can be written to';
    throw new RoastError(`${option}: read "${printable(file)}"; ${reason}; accepted: ${accepted}`, {
      code: 'unwritable',
      path: [option],
      found: file,
      accepted,
    });
  };
  const standing = await stat(file).catch(() => undefined);
  if (standing?.isDirectory()) refuse({ code: 'EISDIR' });
  const handle = await open(temporary, 'wx').catch(refuse);
  const drop = async (): Promise<void> => {
    await handle.close().catch(() => undefined);
    await rm(temporary, { force: true });
  };
  return {
    fill: async (content) => {
      try {
        await handle.writeFile(content);
        await handle.close();
        await rename(temporary, file);
      } catch (error) {
        await drop();
        refuse(error);
      }
    },
    drop,
  };
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such folder',
  ENOTDIR: 'there is no such folder',
  EACCES: 'it may not be written there',
  EPERM: 'it may not be written there',
  EROFS: 'it may not be written there',
  EISDIR: 'that is a folder',
  ENAMETOOLONG: 'the name is too long',
  ENOSPC: 'the disk is full',
};
