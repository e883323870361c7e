import { open, rename, rm, stat } from 'node:fs/promises';
import path from 'node:path';
import { RoastError } from '@roastsim/core';
import { readAtMost } from './read/fileBytes.js';
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
 * @param shown - what a person knows of it, for the error: the folder, where they named no file
 * @throws RoastError `unwritable`
 */
export async function reserve(file: string, option: string, shown = file): Promise<Reserved> {
  const temporary = path.join(
    path.dirname(file),
    `.${path.basename(file)}.${crypto.randomUUID()}.part`,
  );
  const refuse = (error: unknown): never => refuseToWrite(error, shown, option);
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

/**
 * The same for a file whose name must tell what is in it.
 *
 * @param ending - `.png`
 * @throws RoastError `unwritable`
 */
export function reserveNamed(file: string, ending: string, option: string): Promise<Reserved> {
  requireEnding(file, ending, option);
  return reserve(file, option);
}

/** @throws RoastError `unwritable` for a name that does not end so, or is nothing else */
export function requireEnding(file: string, ending: string, option: string): void {
  const { name, ext } = path.parse(file);
  if (ext.toLowerCase() === ending && name !== '') return;
  refuseName(file, ending, option);
}

/** Refuses the name of a file for output. */
export function refuseName(file: string, ending: string, option: string): never {
  const accepted = `a file name that ends in ${ending}`;
  throw new RoastError(`${option}: read "${printable(file)}"; accepted: ${accepted}`, {
    code: 'unwritable',
    path: [option],
    found: file,
    accepted,
  });
}

/** Throws the error of a file or folder that the system would not write to. */
export function refuseToWrite(error: unknown, file: string, option: string): never {
  const reason = reasonOf(error, 'written');
  const accepted = 'a file in a folder that can be written to';
  throw new RoastError(`${option}: read "${printable(file)}"; ${reason}; accepted: ${accepted}`, {
    code: 'unwritable',
    path: [option],
    found: file,
    accepted,
  });
}

/**
 * Reads a whole file.
 *
 * @param field - what it is, for the error
 * @param most - the most it may hold [bytes]; no more is read of what never ends
 * @param accepted - what would have been read
 * @throws RoastError `unreadable`
 */
export async function readWhole(
  file: string,
  field: string,
  most: number,
  accepted: string,
): Promise<Uint8Array> {
  const refuse = (fault: string): never => {
    throw new RoastError(`${printable(file)}: ${fault}; accepted: ${accepted}`, {
      code: 'unreadable',
      path: [field],
      found: file,
      accepted,
    });
  };
  const bytes = await readAtMost(file, most).catch((error) => refuse(reasonOf(error, 'read')));
  return bytes ?? refuse(`it is larger than ${most / 1024 / 1024} MiB`);
}

/** Why the system would not read or write a file, in a few words. */
function reasonOf(error: unknown, what: 'read' | 'written'): string {
  const missing = what === 'read' ? 'there is no such file' : 'there is no such folder';
  const forbidden = what === 'read' ? 'it may not be read' : 'it may not be written there';
  const reasons: Readonly<Record<string, string>> = {
    ENOENT: missing,
    ENOTDIR: missing,
    EACCES: forbidden,
    EPERM: forbidden,
    EROFS: forbidden,
    EISDIR: 'that is a folder',
    ENAMETOOLONG: 'the name is too long',
    ENOSPC: 'the disk is full',
    EDQUOT: 'the disk has no more room for this user',
    EFBIG: 'it is larger than a file may be there',
  };
  return reasons[(error as NodeJS.ErrnoException).code ?? ''] ?? `it cannot be ${what}`;
}
