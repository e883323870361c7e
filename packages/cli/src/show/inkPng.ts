import { deflateSync } from 'node:zlib';

/** Pixels, row by row from the top: red, green, blue and opacity, 0 to 255 each. */
export interface Pixels {
  readonly data: Uint8ClampedArray;
  readonly width: number;
  readonly height: number;
}

type Rgb = readonly [red: number, green: number, blue: number];

/** The one colour beside the greys: dark red. */
export const ACCENT: Rgb = [0x7a, 0x1f, 0x1a];
/** Greys of the palette: many where paper is tinted, few where letters are smoothed. */
export const GREYS = [0, 40, 84, 128, 170, 212, 232, 244, 255] as const;
const TINTS = 7; // of the colour, up to the full one: with the greys 16, so that a pixel takes four bits

const PALETTE: readonly Rgb[] = [
  ...GREYS.map((grey): Rgb => [grey, grey, grey]),
  ...Array.from({ length: TINTS }, (_, i) => tint((i + 1) / TINTS)),
];

/** The colour on white paper, as strong as `share`. */
function tint(share: number): Rgb {
  const [red, green, blue] = ACCENT.map((value) => Math.round(255 - share * (255 - value)));
  return [red, green, blue];
}

/** Index of the entry whose green is nearest, for each green, among the entries `from` to `to`. */
function nearest(from: number, to: number): Uint8Array {
  return Uint8Array.from({ length: 256 }, (_, green) => {
    let best = from;
    for (let i = from + 1; i < to; i++) {
      if (Math.abs(PALETTE[i][1] - green) < Math.abs(PALETTE[best][1] - green)) best = i;
    }
    return best;
  });
}

const NEAREST_GREY = nearest(0, GREYS.length);
const NEAREST_TINT = nearest(GREYS.length, PALETTE.length);
/** Red over green from which a pixel counts as coloured: half of the palest tint. */
const COLOURED = (PALETTE[GREYS.length][0] - PALETTE[GREYS.length][1]) / 2;

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
const INDEXED = 3;
const COMPRESSION = 6;

/**
 * A PNG file of a picture in greys and one colour, opaque, of 16 shades.
 *
 * The canvas writes all colours with opacity: for the chart of a card that took three times as long and twice the bytes, and a
 * PDF file takes in opaque pictures as they stand, where it must unpack the others.
 *
 * @param pixelsPerMm - printed resolution, kept in the file
 */
export function inkPng(pixels: Pixels, pixelsPerMm: number): Buffer {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(pixels.width, 0);
  header.writeUInt32BE(pixels.height, 4);
  header.set([4, INDEXED], 8);
  const resolution = Buffer.alloc(9);
  resolution.writeUInt32BE(Math.round(1000 * pixelsPerMm), 0);
  resolution.writeUInt32BE(Math.round(1000 * pixelsPerMm), 4);
  resolution[8] = 1; // per metre
  return Buffer.concat([
    Buffer.from(SIGNATURE),
    chunk('IHDR', header),
    chunk('pHYs', resolution),
    chunk('PLTE', Buffer.from(PALETTE.flat())),
    chunk('IDAT', deflateSync(packedRows(pixels), { level: COMPRESSION })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

/** Rows of palette indices, two to a byte, each row behind the number of its filter: none. */
function packedRows({ data, width, height }: Pixels): Buffer {
  const rowBytes = 1 + Math.ceil(width / 2);
  const packed = Buffer.alloc(rowBytes * height);
  let at = 0;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++, at += 4) {
      const green = data[at + 1];
      const index = data[at] - green > COLOURED ? NEAREST_TINT[green] : NEAREST_GREY[green];
      packed[y * rowBytes + 1 + (x >> 1)] |= x % 2 === 0 ? index << 4 : index;
    }
  }
  return packed;
}

function chunk(type: string, content: Buffer): Buffer {
  const framed = Buffer.alloc(content.length + 12);
  framed.writeUInt32BE(content.length, 0);
  framed.write(type, 4, 'latin1');
  content.copy(framed, 8);
  framed.writeUInt32BE(checksum(framed.subarray(4, -4)), content.length + 8);
  return framed;
}

/** Remainders of each byte under the polynomial of CRC-32; PNG specification, annex D. */
const REMAINDERS = Uint32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? 0xedb88320 ^ (rest >>> 1) : rest >>> 1;
  return rest;
});

function checksum(bytes: Uint8Array): number {
  let rest = 0xffffffff;
  for (const byte of bytes) rest = REMAINDERS[(rest ^ byte) & 0xff] ^ (rest >>> 8);
  return (rest ^ 0xffffffff) >>> 0;
}
