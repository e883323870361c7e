import {
  type Belief,
  diameterAt,
  greatestDiameter,
  type InputName,
  type Plan,
  riseText,
  thicknessText,
  type UnitSystem,
} from '@roastsim/core';

const MOST = 4;
const MOVED = 0.5; // standard deviations: less is what was believed anyway
const percent = (factor: number): string => `${Math.round(100 * Math.abs(factor - 1))} %`;

/** What one belief means to a cook; nothing where it means nothing to them. */
function say({ input, value }: Belief, plan: Plan, units: UnitSystem): string | undefined {
  const more = value > 1;
  const say: Partial<Record<InputName, () => string>> = {
    size: () => `the roast cooks as if ${percent(value)} ${more ? 'thicker' : 'thinner'} than said`,
    modelTime: () =>
      `everything takes ${percent(value)} ${more ? 'longer' : 'less'} than the model says`,
    conductivity: () => `this meat conducts heat ${percent(value)} ${more ? 'better' : 'worse'}`,
    vent: () =>
      more
        ? 'your oven loses its moisture faster than most'
        : 'your oven keeps its moisture longer than most',
    ovenOffset: () =>
      `your oven runs ${riseText(Math.abs(value), units)} ${value > 0 ? 'hot' : 'cool'}`,
    wallOffset: () =>
      `your oven's walls are ${riseText(Math.abs(value), units)} ${value > 0 ? 'hotter' : 'cooler'} than its air`,
    probe: () => `the thermometer's tip sits about ${offAxis(plan, value, units)} off the middle`,
    film: () => `the air in your oven moves ${more ? 'more' : 'less'} than in most`,
    crustVapour: () => `the crust dries ${more ? 'slower' : 'faster'} than usual`,
    start: () =>
      `the meat went in ${riseText(Math.abs(value), units)} ${value > 0 ? 'warmer' : 'colder'} than said`,
  };
  return say[input]?.();
}

function offAxis({ roast, aim }: Plan, share: number, units: UnitSystem): string {
  const { atMm } = aim.point;
  const diameterM =
    atMm === 'coldest' ? greatestDiameter(roast.profile) : diameterAt(roast.profile, atMm / 1000);
  return thicknessText(share * 500 * diameterM, units);
}

/** What the fit believes, in plain words, what it is surest of first; empty while the log says no more than was known. */
export const sayBeliefs = (
  beliefs: readonly Belief[],
  plan: Plan,
  units: UnitSystem,
): readonly string[] =>
  beliefs
    .filter(({ movedBy }) => Math.abs(movedBy) >= MOVED)
    .sort((a, b) => Math.abs(b.movedBy) - Math.abs(a.movedBy))
    .slice(0, MOST)
    .flatMap((belief) => say(belief, plan, units) ?? []);
