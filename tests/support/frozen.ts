/** Environment of a process whose clock stands at `iso`, on a machine in `zone`. */
export function frozenAt(iso: string, zone: string): NodeJS.ProcessEnv {
  const script = `
    const fixed = ${Date.parse(iso)};
    globalThis.Date = class extends Date {
      constructor(...given) { given.length === 0 ? super(fixed) : super(...given); }
      static now() { return fixed; }
    };`;
  return {
    ...process.env,
    TZ: zone,
    NODE_OPTIONS: `--import=data:text/javascript,${encodeURIComponent(script)}`,
  };
}
