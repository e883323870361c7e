import { rest, roastIn, roundRoast, simulate } from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import { type Shape, theta } from '../../packages/cli/src/check/exact/series.js';
import { DIFFUSIVITY, evenSteps, SolidLine } from '../../packages/cli/src/check/exact/solidLine.js';

const SHAPES: readonly Shape[] = ['cylinder', 'slab', 'sphere'];
const FOURIERS = [0.1, 0.3, 0.6];
const PLACES = [0, 0.5, 1];
const BIOT = 2;
const UNIT_S = (FOURIERS[0] * 0.04 ** 2) / DIFFUSIVITY; // every time above is a whole number of these

/** Theta at all times and places, from a run with even steps. */
function sampled(shape: Shape, shells: number, stepS: number): number[] {
  const line = new SolidLine(shape, BIOT, shells);
  let reached = 0;
  return FOURIERS.flatMap((fourier) => {
    line.advance(fourier - reached, evenSteps(stepS));
    reached = fourier;
    return PLACES.map((place) => line.theta(place));
  });
}

const worstGap = (a: readonly number[], b: readonly number[]): number =>
  Math.max(...a.map((value, i) => Math.abs(value - b[i])));

/** log2 of the ratio of successive errors: the order when each error belongs to half the spacing of the one before. */
const orders = (errors: readonly number[]): number[] =>
  errors.slice(1).map((error, i) => Math.log2(errors[i] / error));

const row = (what: string, at: readonly (number | string)[], errors: readonly number[]): string =>
  `${what}: ${errors
    .map((error, i) => {
      const order = i === 0 ? '' : ` (order ${Math.log2(errors[i - 1] / error).toFixed(2)})`;
      return `${at[i]} ${error.toExponential(1)}${order}`;
    })
    .join(', ')}`;

describe.each(SHAPES)('order of accuracy of a %s with convection, Bi 2', (shape) => {
  test('in space, second: half the shell, a quarter of the gap to the series', () => {
    const exact = FOURIERS.flatMap((fourier) =>
      PLACES.map((place) => theta(shape, BIOT, fourier, place)),
    );
    const shells = [8, 16, 32, 64];
    const errors = shells.map((count) => worstGap(sampled(shape, count, UNIT_S / 512), exact));
    console.log(row(`${shape}, shells`, shells, errors));
    for (const order of orders(errors)) expect(order).toBeGreaterThan(1.9);
  });

  test('in time, second: half the step, a quarter of the gap to a run with tiny steps', () => {
    const tiny = sampled(shape, 64, UNIT_S / 1024);
    const perUnit = [8, 16, 32, 64];
    const errors = perUnit.map((count) => worstGap(sampled(shape, 64, UNIT_S / count), tiny));
    const steps = perUnit.map((count) => `${(UNIT_S / count).toFixed(0)} s`);
    console.log(row(`${shape}, steps`, steps, errors));
    for (const order of orders(errors)) expect(order).toBeGreaterThan(1.9);
  });
});

// Oven humidity and the crust's heat capacity are held over a step, and the crust's edge jumps from shell to shell: a
// whole cook is of first order in both, step and shell. What counts is how little is left at the defaults.
describe('a whole cook of one line, 40 min at 230 °C and 20 min of rest', () => {
  const roast = { ...roundRoast({ lengthMm: 450, diameters: [{ sizeMm: 79 }] }), aspect: 1 };
  const stages = [roastIn({ ovenC: 230, until: { minutes: 40 } }), rest({ minutes: 20 })];
  const axisAtEnds = (options: { shells?: number; longestStepS?: number }): number[] => {
    const { stages: records } = simulate(roast, stages, { stations: 1, axial: false, ...options });
    return records.map((record) => record.endFieldC[0]);
  };

  test('steps: first order, 0.05 °C on the axis at the default', () => {
    const tiny = axisAtEnds({ longestStepS: 0.5 });
    const steps = [40, 20, 10, 5];
    const errors = steps.map((longestStepS) => worstGap(axisAtEnds({ longestStepS }), tiny));
    console.log(row('whole cook, longest step in s', steps, errors));
    for (const order of orders(errors)) expect(order).toBeGreaterThan(0.9);
    expect(errors[1]).toBeLessThan(0.05);
  });

  test('shells: 0.05 °C on the axis at the default', () => {
    const shells = [8, 16, 32, 64];
    const fine = axisAtEnds({ shells: 512 });
    const errors = shells.map((count) => worstGap(axisAtEnds({ shells: count }), fine));
    console.log(row('whole cook, shells', shells, errors));
    for (const order of orders(errors)) expect(order).toBeGreaterThan(0.9);
    expect(errors[2]).toBeLessThan(0.05);
  });
});
