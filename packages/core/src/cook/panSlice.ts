import {
  radialMesh,
  Stepper,
  singleLine,
  uniformState,
  unsaidSurroundings,
} from '../heat/index.js';
import type { Meat } from '../meat/index.js';
import { HOUSEHOLD_OVEN } from './oven.js';
import { phasesOf } from './phases.js';
import { rest, searInPan } from './stages.js';

/** A carved slice that goes into a pan, one cut face after the other. */
export interface PanSlice {
  readonly meat: Meat;
  /** Between its cut faces [mm]. */
  readonly thicknessMm: number;
  /** When it is carved: taken the same from face to face [°C]. */
  readonly startC: number;
  readonly panC: number;
  readonly secondsPerSide: number;
}

// within 0.01 K of four times the shells and a tenth of the steps
const SHELLS = 24;
const FIRST_STEP_S = 0.5;
const GROWTH = 1.2;
const LONGEST_STEP_S = 5;
const ON_THE_PLATE_MINUTES = 2; // warmth under the faces still travels in; judgement

/**
 * Hottest that the middle of a slice becomes in the pan and on the plate [°C]. A slab between two like faces: the slice is wide
 * against its thickness, and its edge keeps warm.
 *
 * @example
 * panSlicePeak({ meat: roast.meat, thicknessMm: 40, startC: 50, panC: 230, secondsPerSide: 60 }) // => 51
 */
export function panSlicePeak({
  meat,
  thicknessMm,
  startC,
  panC,
  secondsPerSide,
}: PanSlice): number {
  const body = singleLine(radialMesh(SHELLS, 0), thicknessMm / 2000);
  const state = uniformState(body, meat, startC);
  const stepper = new Stepper(body, meat);
  const around = { side: unsaidSurroundings(), ends: unsaidSurroundings() };
  const stages = [
    searInPan({ panC, faces: 2, secondsPerFace: secondsPerSide }),
    rest({ minutes: ON_THE_PLATE_MINUTES, tented: false }),
  ];
  let peakC = startC;
  for (const stage of stages) {
    for (const phase of phasesOf(stage, HOUSEHOLD_OVEN, undefined)) {
      phase.expose(0, 0, around.side, around.ends);
      let stepS = FIRST_STEP_S;
      for (let atS = 0; atS < phase.seconds; ) {
        const takenS = Math.min(stepS, phase.seconds - atS);
        stepper.step(state, takenS, around, around, around);
        atS += takenS;
        stepS = Math.min(LONGEST_STEP_S, GROWTH * stepS);
        peakC = Math.max(peakC, state.tempC[0]);
      }
    }
  }
  return peakC;
}
