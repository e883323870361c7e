import {
  bodyOf,
  constantSolid,
  type Roast,
  Stepper,
  scaled,
  tenderloin,
  uniformState,
} from '@roastsim/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Shape } from '../../packages/cli/src/check/exact/series.js';
import {
  allRound,
  COOK_STEPS,
  convection,
  evenSteps,
  march,
  SOLID,
  SolidLine,
} from '../../packages/cli/src/check/exact/solidLine.js';
import { decimal } from '../support/anyCook.js';

const anyShape = fc.constantFrom<Shape[]>('slab', 'cylinder', 'sphere');
const anyBiot = decimal(0.2, 20);

describe('law: twice the size takes four times as long at an equal Biot number', () => {
  test('one line, steps four times as long: the same to rounding', () => {
    fc.assert(
      fc.property(anyShape, anyBiot, decimal(0.05, 1), (shape, biot, fourier) => {
        const small = new SolidLine(shape, biot, 16, 0.04).advance(fourier, evenSteps(15));
        const large = new SolidLine(shape, biot, 16, 0.08).advance(fourier, evenSteps(60));
        for (const place of [0, 0.5, 1]) {
          expect(Math.abs(large.theta(place) - small.theta(place))).toBeLessThan(1e-9);
        }
      }),
      { numRuns: 40 },
    );
  });

  test('one line, the steps of a cook: time to a centre temperature to 0.1 %', () => {
    fc.assert(
      fc.property(anyShape, anyBiot, decimal(0.2, 0.9), (shape, biot, target) => {
        const small = new SolidLine(shape, biot, 16, 0.025).fourierTo(target);
        const large = new SolidLine(shape, biot, 16, 0.05).fourierTo(target);
        expect(Math.abs(large / small - 1)).toBeLessThan(0.001);
      }),
      { numRuns: 40 },
    );
  });

  test('a whole roast with its ends: the same to rounding', () => {
    const solid = constantSolid(SOLID.conductivity, SOLID.density, SOLID.heatCapacity);
    const small: Roast = { ...tenderloin({ massKg: 0.5 }), meat: solid };
    const large: Roast = { ...small, profile: scaled(small.profile, 2, 2) };
    const field = (roast: Roast, filmWPerM2K: number, minutes: number, stretch: number) => {
      const { body } = bodyOf(roast, { stations: 12, shells: 12 });
      const state = uniformState(body, solid, 4);
      const { firstS, growth, longestS } = COOK_STEPS;
      march(new Stepper(body, solid), state, allRound(convection(204, filmWPerM2K)), 60 * minutes, {
        firstS: stretch * firstS,
        growth,
        longestS: stretch * longestS,
      });
      return state.tempC;
    };
    const after = field(small, 20, 20, 1);
    for (const [at, tempC] of field(large, 10, 80, 4).entries()) {
      expect(Math.abs(tempC - after[at])).toBeLessThan(1e-9);
    }
  });
});
