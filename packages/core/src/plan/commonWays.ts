import { rest, roastIn, searInPan, temper, waterBath } from '../cook/index.js';
import { SAFETY_LIMITS } from '../judge/index.js';
import type { CookWay } from './compareWays.js';

const BATH_ABOVE_TARGET_K = 0.5; // a bath's centre comes this close in reasonable time
const BATH_STEP_K = 0.5; // what baths are set to
const LEAST_BATH_C = Math.ceil(SAFETY_LIMITS.heatingToC / BATH_STEP_K) * BATH_STEP_K;

/**
 * Ways that a kitchen usually has to choose from, for a centre at `targetC` in °C: hot oven; sear, then a moderate oven; slow oven,
 * then sear; water bath, then sear; two pieces in the hot oven. Temperatures and times are common practice, no source. The bath is
 * half a degree above the target, but never below the lowest temperature with a published safe time.
 *
 * @example
 * commonWays(56).map(({ name }) => name)[0] // => 'hot oven'
 */
export function commonWays(targetC: number): CookWay[] {
  const until = { minutes: 0 }; // the plan finds the pull
  const before = [temper({ minutes: 30 })];
  const hot = {
    before,
    heat: roastIn({ ovenC: 230, until }),
    after: [rest({ minutes: 20 })],
  };
  const bathC = Math.max(
    LEAST_BATH_C,
    BATH_STEP_K * Math.ceil((targetC + BATH_ABOVE_TARGET_K) / BATH_STEP_K),
  );
  const lastSear = searInPan({ panC: 250, secondsPerFace: 45 });
  return [
    { name: 'hot oven', ...hot },
    {
      name: 'sear then oven',
      before: [...before, searInPan()],
      heat: roastIn({ ovenC: 160, until }),
      after: [rest({ minutes: 15 })],
    },
    {
      name: 'slow oven then sear',
      before,
      heat: roastIn({ ovenC: 120, until }),
      after: [lastSear, rest({ minutes: 10 })],
    },
    {
      name: 'water bath then sear',
      before: [],
      heat: waterBath({ bathC, until }),
      after: [lastSear, rest({ minutes: 5 })],
    },
    { name: 'hot oven in two pieces', ...hot, pieces: 2 },
  ];
}
