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

  rows(count: number): Float64Array {
    return this.#data.slice(0, count * this.width);
  }
}

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

  /** Everything recorded, as independent arrays. */
  series() {
    const n = this.count;
    return {
      rows: n,
      seconds: this.#seconds.rows(n),
      airC: this.#airC.rows(n),
      wallC: this.#wallC.rows(n),
      vapourPa: this.#vapourPa.rows(n),
      axisC: this.#axisC.rows(n),
      frontC: this.#frontC.rows(n),
      outsideC: this.#outsideC.rows(n),
      meanC: this.#meanC.rows(n),
      ...(this.#fieldC === undefined ? {} : { fieldC: this.#fieldC.rows(n) }),
    };
  }
}
