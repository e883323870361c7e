import { createHash } from 'node:crypto';
import { type FileHandle, open, readFile } from 'node:fs/promises';
import path from 'node:path';
import {
  PDFArray,
  type PDFContext,
  PDFDict,
  PDFDocument,
  PDFHexString,
  PDFName,
  type PDFObject,
  type PDFPageLeaf,
  PDFRawStream,
  PDFRef,
} from '@cantoo/pdf-lib';
import { refuseToWrite } from '../wholeFile.js';

/** Keys of a page that its folder of pages can hold for it. */
const INHERITED = ['Resources', 'MediaBox', 'CropBox', 'Rotate'].map((key) => PDFName.of(key));

/** Keys of a page that point at what is left behind: the folder of pages, and the structure of the document it came from. */
const LEFT_BEHIND = new Set(['Parent', 'StructParents', 'Tabs'].map((key) => PDFName.of(key)));

const CATALOG = 1;
const PAGES = 2;
const INFO = 3;
const FIRST_FREE = 4;

/**
 * Puts the pages of PDF files into one, in their order. One file is in memory at a time; what several have in common byte for byte,
 * a logo or a font, is written once.
 *
 * @param target - path of the new file
 * @returns SHA-256 of the new file, in hexadecimal
 * @throws RoastError `unwritable`
 */
export async function combinePdfs(
  files: readonly string[],
  target: string,
  title: string,
): Promise<string> {
  const refuse = (error: unknown): never => refuseToWrite(error, path.dirname(target), '--out');
  const handle = await open(target, 'wx').catch(refuse);
  try {
    const writer = new Writer();
    for (const file of files) {
      await writer.add(await readFile(file));
      await writer.flush(handle).catch(refuse);
    }
    writer.end(title);
    await writer.flush(handle).catch(refuse);
    return writer.digest();
  } finally {
    await handle.close();
  }
}

/** A PDF file on its way to the disk: its objects in the order they come, the table of where they are at the end. */
class Writer {
  private chunks: Buffer[] = [];
  private at = 0;
  private readonly offsets: number[] = new Array(FIRST_FREE).fill(0);
  private readonly shared = new Map<string, number>();
  private readonly pages: number[] = [];
  private readonly hash = createHash('sha256');

  constructor() {
    this.push(Buffer.from('%PDF-1.7\n%\u00e2\u00e3\u00cf\u00d3\n', 'latin1'));
  }

  /** Copies the pages of a document and all they need. */
  async add(bytes: Uint8Array): Promise<void> {
    const document = await PDFDocument.load(bytes, { updateMetadata: false });
    const pages = document.getPages();
    const copy = new Copy(document.context, this);
    const numbers = pages.map(({ ref }) => copy.reserve(ref));
    for (const [i, { node }] of pages.entries()) this.put(numbers[i], copy.pageBody(node));
    this.pages.push(...numbers);
  }

  /** Writes what belongs to the whole file. */
  end(title: string): void {
    const kids = this.pages.map((number) => `${number} 0 R`).join(' ');
    this.put(CATALOG, Buffer.from(`<</Type /Catalog /Pages ${PAGES} 0 R>>`));
    this.put(PAGES, Buffer.from(`<</Type /Pages /Kids [${kids}] /Count ${this.pages.length}>>`));
    this.put(INFO, Buffer.from(`<</Title ${PDFHexString.fromText(title)} /Producer (roastsim)>>`));
    const table = this.at;
    const size = this.offsets.length;
    const rows = this.offsets
      .slice(1)
      .map((offset) => `${String(offset).padStart(10, '0')} 00000 n \n`);
    this.push(
      Buffer.from(
        `xref\n0 ${size}\n0000000000 65535 f \n${rows.join('')}` +
          `trailer\n<</Size ${size} /Root ${CATALOG} 0 R /Info ${INFO} 0 R>>\nstartxref\n${table}\n%%EOF\n`,
      ),
    );
  }

  /** A number for an object that is to come. */
  reserve(): number {
    return this.offsets.push(0) - 1;
  }

  put(number: number, body: Buffer): void {
    this.offsets[number] = this.at;
    this.push(Buffer.from(`${number} 0 obj\n`), body, Buffer.from('\nendobj\n'));
  }

  /** The number of an object that may be there already, from another document. */
  share(body: Buffer): number {
    const digest = createHash('sha256').update(body).digest('base64');
    const known = this.shared.get(digest);
    if (known !== undefined) return known;
    const number = this.reserve();
    this.put(number, body);
    this.shared.set(digest, number);
    return number;
  }

  async flush(handle: FileHandle): Promise<void> {
    const bytes = Buffer.concat(this.chunks);
    this.chunks = [];
    this.hash.update(bytes);
    await handle.writeFile(bytes); // goes on where the last one ended
  }

  /** SHA-256 of all that was flushed; ends the writing. */
  digest(): string {
    return this.hash.digest('hex');
  }

  private push(...chunks: Buffer[]): void {
    this.chunks.push(...chunks);
    for (const { length } of chunks) this.at += length;
  }
}

/** The objects of one document, under new numbers. */
class Copy {
  private readonly numbers = new Map<PDFRef, number>();
  private readonly open = new Set<PDFRef>();

  private readonly context: PDFContext;
  private readonly writer: Writer;

  constructor(context: PDFContext, writer: Writer) {
    this.context = context;
    this.writer = writer;
  }

  reserve(ref: PDFRef): number {
    const number = this.writer.reserve();
    this.numbers.set(ref, number);
    return number;
  }

  /** A page, free of the document it came from. */
  pageBody(page: PDFPageLeaf): Buffer {
    const own = page.entries().filter(([key]) => !LEFT_BEHIND.has(key));
    const inherited = INHERITED.filter((key) => !page.has(key)).flatMap((key) => {
      const value = page.getInheritableAttribute(key);
      return value === undefined ? [] : [[key, value] as const];
    });
    const entries = [...own, ...inherited].map(([key, value]) => `${key} ${this.text(value)}`);
    return Buffer.from(`<<${entries.join(' ')} /Parent ${PAGES} 0 R>>`, 'latin1');
  }

  private numberOf(ref: PDFRef): number {
    const known = this.numbers.get(ref);
    if (known !== undefined) return known;
    if (this.open.has(ref)) return this.reserve(ref); // it points at itself by a detour
    this.open.add(ref);
    const body = this.body(this.context.lookup(ref));
    this.open.delete(ref);
    const reserved = this.numbers.get(ref);
    const number = reserved ?? this.writer.share(body);
    if (reserved === undefined) this.numbers.set(ref, number);
    else this.writer.put(reserved, body);
    return number;
  }

  private body(object: PDFObject | undefined): Buffer {
    if (object === undefined) return Buffer.from('null');
    if (!(object instanceof PDFRawStream)) return Buffer.from(this.text(object), 'latin1');
    const { contents } = object;
    object.dict.set(PDFName.of('Length'), this.context.obj(contents.length));
    return Buffer.concat([
      Buffer.from(`${this.text(object.dict)}\nstream\n`, 'latin1'),
      contents,
      Buffer.from('\nendstream'),
    ]);
  }

  private text(object: PDFObject): string {
    if (object instanceof PDFRef) return `${this.numberOf(object)} 0 R`;
    if (object instanceof PDFArray) {
      return `[${object
        .asArray()
        .map((each) => this.text(each))
        .join(' ')}]`;
    }
    if (object instanceof PDFDict) {
      const entries = object.entries().map(([key, value]) => `${key} ${this.text(value)}`);
      return `<<${entries.join(' ')}>>`;
    }
    return object.toString();
  }
}
