import { open, readFile, rm } from 'node:fs/promises';
import path from 'node:path';
import { RoastError } from '@roastsim/core';
import { printable } from '../read/index.js';
import { refuseToWrite } from '../wholeFile.js';

const NAME = '.roastsim-cards.lock';

/**
 * Keeps a folder to this process: two runs at once would take each other's unfinished files for leftovers. The lock of a process
 * that is no more does not count.
 *
 * @returns how to give the folder back
 * @throws RoastError `unwritable` while another process works there
 */
export async function lock(dir: string): Promise<() => Promise<void>> {
  const file = path.join(dir, NAME);
  for (let tries = 0; ; tries++) {
    const unlock = (): Promise<void> => rm(file, { force: true });
    const handle = await open(file, 'wx').catch((error: NodeJS.ErrnoException) => {
      if (error.code !== 'EEXIST' || tries > 0) refuseToWrite(error, dir, '--out');
    });
    if (handle !== undefined) {
      try {
        await handle.writeFile(`${process.pid}\n`);
        return unlock;
      } catch (error) {
        await unlock();
        return refuseToWrite(error, dir, '--out');
      } finally {
        await handle.close();
      }
    }
    const holder = Number(await readFile(file, 'utf8').catch(() => ''));
    if (holder !== process.pid && runs(holder)) {
      const accepted = `a folder no other run works in; if none does, delete ${NAME} there`;
      throw new RoastError(
        `--out: read "${printable(dir)}"; process ${holder} is working there; accepted: ${accepted}`,
        { code: 'unwritable', path: ['--out'], found: dir, accepted },
      );
    }
    await rm(file, { force: true });
  }
}

/** Whether a process of that number runs. */
function runs(pid: number): boolean {
  if (!Number.isInteger(pid) || pid <= 0) return false;
  try {
    process.kill(pid, 0); // signal 0 only asks
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
