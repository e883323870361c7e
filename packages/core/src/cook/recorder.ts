/** Rows of numbers that grow by doubling. */
class Column {
  #data: Float64Array;
  readonly width: number;

  constructor(width: number, rows: number) {
    this.width = width;
    this.#data = new Float64Array(width * rows);
  }

  /** The storage of `row`, grown when needed; the caller writes `width` numbers from the returned offset. */
  room(row: number): Float64Array {
    const need = (row + 1) * this.width;
    if (need > this.#data.length) {
      const grown = new Float64Array(Math.max(need, 2 * this.#data.length));
      grown.set(this.#data);
      this.#data = grown;
    }
    return this.#data;
  }

  rows(from: number, to: number): Float64Array {
    return this.#data.slice(from * this.width, to * this.width);
  }

  put(from: number, rows: Float64Array): void {
    this.room(from + rows.length / this.width).set(rows, from * this.width);
  }
}

/** Some rows of everything recorded, to be put back later. */
export type RowBlock = readonly Float64Array[];

const FIRST_ROWS = 512; // a plan at the default steps needs about 400

/** What is kept of every step. */
export class Recorder {
  readonly stations: number;
  readonly nodes: number;
  readonly #seconds = new Column(1, FIRST_ROWS);
  readonly #airC = new Column(1, FIRST_ROWS);
  readonly #wallC = new Column(1, FIRST_ROWS);
  readonly #vapourPa = new Column(1, FIRST_ROWS);
  readonly #axisC: Column;
  readonly #frontC: Column;
  readonly #outsideC: Column;
  readonly #meanC: Column;
  readonly #fieldC: Column | undefined;
  /** Rows written; set it back to forget the latest. */
  count = 0;

  constructor(stations: number, nodes: number, fields: boolean) {
    this.stations = stations;
    this.nodes = nodes;
    this.#axisC = new Column(stations, FIRST_ROWS);
    this.#frontC = new Column(stations, FIRST_ROWS);
    this.#outsideC = new Column(stations, FIRST_ROWS);
    this.#meanC = new Column(stations, FIRST_ROWS);
    this.#fieldC = fields ? new Column(stations * nodes, 64) : undefined;
  }

  add(
    seconds: number,
    around: { readonly airC: number; readonly wallC: number; readonly vapourPa: number },
    tempC: Float64Array,
    outsideC: Float64Array,
    share: Float64Array,
  ): void {
    const row = this.count;
    this.#seconds.room(row)[row] = seconds;
    this.#airC.room(row)[row] = around.airC;
    this.#wallC.room(row)[row] = around.wallC;
    this.#vapourPa.room(row)[row] = around.vapourPa;
    const { stations, nodes } = this;
    const axis = this.#axisC.room(row);
    const front = this.#frontC.room(row);
    const outside = this.#outsideC.room(row);
    const mean = this.#meanC.room(row);
    for (let i = 0, at = row * stations; i < stations; i++, at++) {
      const base = i * nodes;
      let sum = 0;
      for (let j = 0; j < nodes; j++) sum += share[j] * tempC[base + j];
      axis[at] = tempC[base];
      front[at] = tempC[base + nodes - 1];
      outside[at] = outsideC[i];
      mean[at] = sum;
    }
    this.#fieldC?.room(row).set(tempC, row * stations * nodes);
    this.count++;
  }

  /** A copy of the rows from `from` up to, not including, `to`. */
  block(from: number, to: number): RowBlock {
    return this.#columns().map((column) => column.rows(from, to));
  }

  /** Puts the first `count` rows of a block back in place, the first at row `from`. */
  putBlock(from: number, block: RowBlock, count: number): void {
    for (const [i, column] of this.#columns().entries()) {
      column.put(from, block[i].subarray(0, count * column.width));
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
