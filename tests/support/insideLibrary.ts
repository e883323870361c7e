import * as face from '@roastsim/core';
import { thickened } from '../../packages/core/src/cook/index.js';
import { deviationOf, upright } from '../../packages/core/src/forecast/index.js';
import { mixBits, normalDeviate } from '../../packages/core/src/numerics/index.js';

/** The library with what it keeps to itself and some tests of the forecasts need. */
export const library = { ...face, deviationOf, mixBits, normalDeviate, thickened, upright };
