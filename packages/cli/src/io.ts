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
}
