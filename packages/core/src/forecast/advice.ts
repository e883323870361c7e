import type { InputName, Priors } from './priors.js';

/** How much of the variance of log time an input brings in by itself. */
export interface Share {
  readonly input: InputName;
  /** 0 to 1; all shares together fall short of 1 by what inputs do jointly and by noise. */
  readonly share: number;
}

/** What a cook could measure to narrow the interval. */
export type Advice = 'measure-girth' | 'oven-thermometer';

const WORTH_SAYING = 0.03; // of the variance: knowing it would narrow the interval by 1.5 %. Judgement

/** What would be worth measuring, the most useful first. */
export function adviceFrom(
  shares: readonly Share[],
  priors: Priors,
  sizeKnownBy: 'tape' | 'length' | 'weight',
): Advice[] {
  const measured: Partial<Record<InputName, Advice>> = {
    ...(sizeKnownBy === 'tape' ? {} : { size: 'measure-girth' as const }),
    ovenOffset: 'oven-thermometer',
  };
  return shares.flatMap(({ input, share }) => {
    const advice = measured[input];
    return advice !== undefined && share >= WORTH_SAYING && priors[input].spread > 0
      ? [advice]
      : [];
  });
}
