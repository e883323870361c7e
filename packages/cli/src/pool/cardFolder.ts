import { randomUUID } from 'node:crypto';
import { mkdir, readdir, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { RoastError } from '@roastsim/core';
import { printable } from '../read/index.js';
import { reserve } from '../wholeFile.js';
import { digestOfFile } from './fingerprint.js';
import { lock } from './lock.js';
import { type Made, type Manifest, readManifest } from './manifest.js';

/** Option that names the folder. */
const OPTION = '--out';

const MANIFEST = '.roastsim-cards.json';

/** Unfinished files of a run that was cut off, and only those: `.001-anna-lind.pdf.<uuid>.part`. */
const LEFT_OVER =
  /^\.+(?:\d{3,}-.*|all-cards(?:-a4)?\.pdf|day-sheet\.\w+|problems\.csv|roastsim-cards\.json)\.[\da-f]{8}(?:-[\da-f]{4}){3}-[\da-f]{12}\.part$/;

/** How a file stands: not there; as it would be made now; made here, from something else; not as it was left, or not made here. */
export type Standing = 'free' | 'current' | 'outdated' | 'foreign';

/** A finished file on its way to its name. */
interface Placing {
  readonly file: string;
  readonly temporary: string;
  readonly made: Made;
}

/**
 * The folder the cards go to. Every file appears whole or not at all, and the manifest knows each before it appears, so that a run
 * cut off anywhere can be taken up again.
 */
export class CardFolder {
  private readonly waiting: Placing[] = [];
  private placed: Promise<void> | undefined;

  readonly dir: string;
  private readonly files: Map<string, Made>;
  private readonly unlock: () => Promise<void>;

  private constructor(dir: string, files: Map<string, Made>, unlock: () => Promise<void>) {
    this.dir = dir;
    this.files = files;
    this.unlock = unlock;
  }

  /**
   * Opens a folder, made when it is missing, for this process alone, and clears what a run that was cut off left unfinished.
   *
   * @throws RoastError `unwritable`
   */
  static async open(dir: string): Promise<CardFolder> {
    await makeFolder(path.resolve(dir)); // where that failed, the next line tells why
    await (await reserve(path.join(dir, MANIFEST), OPTION, dir)).drop();
    const unlock = await lock(dir);
    await sweep(dir);
    const { files, placing } = await readManifest(path.join(dir, MANIFEST));
    const known = new Map(Object.entries(files));
    for (const [file, made] of Object.entries(placing)) {
      if ((await digestOfFile(path.join(dir, file))) === made.bytes) known.set(file, made);
    }
    return new CardFolder(dir, known, unlock);
  }

  /** Path of a file in the folder. */
  readonly pathOf = (file: string): string => path.join(this.dir, file);

  /** A path beside `file` to write it to before {@link place}. */
  temporary(file: string): string {
    return this.pathOf(`.${file}.${randomUUID()}.part`);
  }

  /** How `file` stands towards what it would be made from now. */
  async standing(file: string, from: string): Promise<Standing> {
    const bytes = await digestOfFile(this.pathOf(file));
    if (bytes === undefined) return 'free';
    const made = this.files.get(file);
    if (made?.bytes !== bytes) return 'foreign';
    return made.from === from ? 'current' : 'outdated';
  }

  /** What the manifest knows of a file. */
  made(file: string): Made | undefined {
    return this.files.get(file);
  }

  /** Names of the files the manifest knows. */
  known(): readonly string[] {
    return [...this.files.keys()];
  }

  /**
   * Puts a finished file in its place. Files that come together are entered in the manifest together.
   *
   * @throws RoastError `unwritable`
   */
  place(file: string, temporary: string, made: Made): Promise<void> {
    this.waiting.push({ file, temporary, made });
    this.placed ??= this.placeAll().finally(() => {
      this.placed = undefined;
    });
    return this.placed;
  }

  /** Writes a small file whole and puts it in its place. */
  async write(file: string, content: Uint8Array | string, made: Made): Promise<void> {
    const temporary = this.temporary(file);
    await (await reserve(temporary, OPTION, this.dir)).fill(content);
    await this.place(file, temporary, made);
  }

  /** Removes a file, if it is there. */
  async remove(file: string): Promise<void> {
    await rm(this.pathOf(file), { force: true });
    this.files.delete(file);
  }

  /** Gives the folder back, its manifest up to date, without what was begun and not finished. */
  async close(): Promise<void> {
    try {
      await this.placed;
      await this.save([]);
    } finally {
      await sweep(this.dir);
      await this.unlock();
    }
  }

  private async placeAll(): Promise<void> {
    while (this.waiting.length > 0) {
      const batch = this.waiting.splice(0);
      await this.save(batch);
      for (const { file, temporary, made } of batch) {
        await rename(temporary, this.pathOf(file)).catch((error) => this.refuse(file, error));
        this.files.set(file, made);
      }
    }
  }

  private async save(batch: readonly Placing[]): Promise<void> {
    const manifest: Manifest = {
      files: Object.fromEntries(this.files),
      placing: Object.fromEntries(batch.map(({ file, made }) => [file, made])),
    };
    const text = `${JSON.stringify(manifest)}\n`;
    await (await reserve(this.pathOf(MANIFEST), OPTION, this.dir)).fill(text);
  }

  private refuse(file: string, error: NodeJS.ErrnoException): never {
    const accepted = 'a folder with room for the cards';
    throw new RoastError(
      `${OPTION}: read "${printable(this.dir)}"; ${file} cannot be put there (${error.code}); accepted: ${accepted}`,
      { code: 'unwritable', path: [OPTION], found: this.dir, accepted },
    );
  }
}

/** Removes unfinished files, those of this run and of runs that were cut off. */
async function sweep(dir: string): Promise<void> {
  for (const name of await readdir(dir)) {
    if (LEFT_OVER.test(name)) await rm(path.join(dir, name), { force: true });
  }
}

/** Makes a folder and those it lies in, as far as that goes. Node's own way never ends under `/proc`. */
async function makeFolder(dir: string): Promise<void> {
  const failed = await mkdir(dir).catch(({ code }: NodeJS.ErrnoException) => code);
  if (failed !== 'ENOENT' || path.dirname(dir) === dir) return;
  await makeFolder(path.dirname(dir));
  await mkdir(dir).catch(() => undefined);
}
