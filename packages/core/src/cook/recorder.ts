/** Rows of numbers, `width` to a row. */
class Column {
  data: Float64Array;
  readonly width: number;

  constructor(width: number, rows: number) {
    this.width = width;
    this.data = new Float64Array(width * rows);
  }

  /** Makes room for so many rows. */
  grow(rows: number): void {
    const grown = new Float64Array(rows * this.width);
    grown.set(this.data);
    this.data = grown;
  }

  rows(from: number, to: number): Float64Array {
    return this.data.slice(from * this.width, to * this.width);
  }
}

/** Some rows of everything recorded, to be put back later. */
export type RowBlock = readonly Float64Array[];

const FIRST_ROWS = 512; // a plan at the default steps needs about 400
const FIRST_ROWS_OF_FIELDS = 64;

/** What is kept of every step. */
export class Recorder {
  readonly stations: number;
  readonly nodes: number;
  readonly #seconds: Column;
  readonly #airC: Column;
  readonly #wallC: Column;
  readonly #vapourPa: Column;
  readonly #axisC: Column;
  readonly #frontC: Column;
  readonly #outsideC: Column;
  readonly #meanC: Column;
  readonly #fieldC: Column | undefined;
  #room: number; // rows
  /** Rows written; set it back to forget the latest. */
  count = 0;

  constructor(stations: number, nodes: number, fields: boolean) {
    this.stations = stations;
    this.nodes = nodes;
    this.#room = fields ? FIRST_ROWS_OF_FIELDS : FIRST_ROWS;
    this.#seconds = new Column(1, this.#room);
    this.#airC = new Column(1, this.#room);
    this.#wallC = new Column(1, this.#room);
    this.#vapourPa = new Column(1, this.#room);
    this.#axisC = new Column(stations, this.#room);
    this.#frontC = new Column(stations, this.#room);
    this.#outsideC = new Column(stations, this.#room);
    this.#meanC = new Column(stations, this.#room);
    this.#fieldC = fields ? new Column(stations * nodes, this.#room) : undefined;
  }

  add(
    seconds: number,
    around: { readonly airC: number; readonly wallC: number; readonly vapourPa: number },
    tempC: Float64Array,
    outsideC: Float64Array,
    share: Float64Array,
  ): void {
    const row = this.count;
    this.#reserve(row + 1);
    this.#seconds.data[row] = seconds;
    this.#airC.data[row] = around.airC;
    this.#wallC.data[row] = around.wallC;
    this.#vapourPa.data[row] = around.vapourPa;
    const { stations, nodes } = this;
    const axis = this.#axisC.data;
    const front = this.#frontC.data;
    const outside = this.#outsideC.data;
    const mean = this.#meanC.data;
    for (let i = 0, at = row * stations; i < stations; i++, at++) {
      const base = i * nodes;
      let sum = 0;
      for (let j = 0; j < nodes; j++) sum += share[j] * tempC[base + j];
      axis[at] = tempC[base];
      front[at] = tempC[base + nodes - 1];
      outside[at] = outsideC[i];
      mean[at] = sum;
    }
    this.#fieldC?.data.set(tempC, row * stations * nodes);
    this.count++;
  }

  /** Room for so many rows, twice as many whenever it runs out. */
  #reserve(rows: number): void {
    if (rows <= this.#room) return;
    this.#room = Math.max(rows, 2 * this.#room);
    for (const column of this.#columns()) column.grow(this.#room);
  }

  /** A copy of the rows from `from` up to, not including, `to`. */
  block(from: number, to: number): RowBlock {
    return this.#columns().map((column) => column.rows(from, to));
  }

  /** Puts the first `count` rows of a block back in place, the first at row `from`. */
  putBlock(from: number, block: RowBlock, count: number): void {
    this.#reserve(from + count);
    for (const [i, column] of this.#columns().entries()) {
      column.data.set(block[i].subarray(0, count * column.width), from * column.width);
    }
  }

  #columns(): Column[] {
    const all = [
      this.#seconds,
      this.#airC,
      this.#wallC,
      this.#vapourPa,
      this.#axisC,
      this.#frontC,
      this.#outsideC,
      this.#meanC,
    ];
    return this.#fieldC === undefined ? all : [...all, this.#fieldC];
  }

  /** Everything recorded, as independent arrays. */
  series() {
    const n = this.count;
    return {
      rows: n,
      seconds: this.#seconds.rows(0, n),
      airC: this.#airC.rows(0, n),
      wallC: this.#wallC.rows(0, n),
      vapourPa: this.#vapourPa.rows(0, n),
      axisC: this.#axisC.rows(0, n),
      frontC: this.#frontC.rows(0, n),
      outsideC: this.#outsideC.rows(0, n),
      meanC: this.#meanC.rows(0, n),
      ...(this.#fieldC === undefined ? {} : { fieldC: this.#fieldC.rows(0, n) }),
    };
  }
}
