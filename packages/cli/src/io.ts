/** What the command line touches of the outside world, so that nothing else has to. */
export interface Io {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** The clock. */
  readonly now: () => Date;
  /** IANA name of the machine's time zone. */
  readonly zone: () => string;
  /** Colour on standard output. */
  readonly color: boolean;
  /** Standard output is a terminal, whose last line can be drawn again. */
  readonly terminal: boolean;
  /** Standard input as it comes, until its end or until the person presses Ctrl-C, which closes it once instead of ending all. */
  readonly input: () => {
    readonly bytes: AsyncIterable<Uint8Array>;
    /** Whether it was closed by Ctrl-C; reading on may then fail. */
    readonly closed: () => boolean;
  };
}
