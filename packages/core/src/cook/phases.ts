import type { Surroundings } from '../heat/index.js';
import { airFilmToVapour, humidityOf, inAir, vapourPressureOf } from '../heat/index.js';
import { STANDARD_ATMOSPHERE_PA } from '../units/index.js';
import type { OvenModel } from './oven.js';
import { writeChecked } from './ownSurroundings.js';
import type { Bath, OvenRoast, OvenSear, OwnSurroundings, PanSear, Stage } from './stages.js';
import { ROOM_C } from './stages.js';

/** What an oven remembers from one stage to the next while the roast stays in. */
export interface OvenMemory {
  readonly kind: 'roast' | 'oven-sear';
  readonly setC: number;
  readonly airC: number;
  readonly wallC: number;
  readonly airDelayS: number;
  readonly wallDelayS: number;
  readonly humidity: number;
}

/** A stretch of a stage with one law for its surroundings. */
export interface Phase {
  /** Length [s]; Infinity where a condition ends it. */
  readonly seconds: number;
  /** Writes what the side and the ends see `atS` seconds into the phase. */
  readonly expose: (atS: number, humidity: number, side: Surroundings, ends: Surroundings) => void;
  /** The longest step may be so many times the usual one: nothing changes fast. */
  readonly stride?: number;
  /** The law may change later: a centre that stands still proves nothing. */
  readonly restless?: true;
  /** A closed oven, whose air gathers the roast's vapour. */
  readonly box?: {
    readonly ventKgPerS: number;
    readonly airKg: number;
    readonly roomHumidity: number;
    readonly startHumidity: number;
    readonly memoryAt: (atS: number, humidity: number) => OvenMemory;
  };
}

// All figures below without a source are engineering judgement; docs/model.md says what they change.
const DOOR = { airK: 30, wallK: 10, airDelayS: 180, wallDelayS: 300 }; // door opened to put the roast in
const WARMING = { airDelayS: 300, wallDelayS: 420 }; // an oven heating up
const COOLING = { airDelayS: 900, wallDelayS: 1200 }; // a closed oven turned down
const GLOWING_DELAY_S = 120; // an element switched on with the roast in the oven
const GLOWING_WALL_C = 330; // mean of what a roast sees under a glowing element
const AFTER_HEAT = { airC: 50, wallC: 60, filmWPerM2K: 8, vapourPa: 2000 }; // over a hot pan, between contacts
const CONTACT_FILM = 300; // W/(m²·K), 200 to 1200 reported for meat in pans (from memory)
const CONTACT_SHARE = 0.85; // of a face's time that a typical spot touches the pan
const CONTACT_VAPOUR_RESISTANCE = 2e6; // Pa·m²·s/kg, steam escaping from under the meat
const BATH_FILM = 500; // W/(m²·K), stirred water; 95 to 155 is reported for circulating baths (from memory)
const ROOM_FILM = 5; // W/(m²·K), still room air: Churchill and Chu give 5.3 at 30 K
const REST_FILM = 6; // W/(m²·K), the same at 40 K, where they give 5.7
const TENT = { filmWPerM2K: 3, radiationFactor: 0.25, vapourPa: 5000 };
const COUNTER_STRIDE = 3; // at one pull no figure of the thirty plans of the check moves by 0.0001 K
const ROOM_VAPOUR_PA = { temper: 1250, rest: 1300 };

const SEALED: Pick<Surroundings, 'vapourResistance' | 'condenses' | 'radiationFactor'> = {
  vapourResistance: Number.POSITIVE_INFINITY,
  condenses: false,
  radiationFactor: 0,
};

const constant = (seconds: number, around: Surroundings, ends = around): Phase => ({
  seconds,
  expose: (_at, _humidity, side, end) => {
    Object.assign(side, around);
    Object.assign(end, ends);
  },
});

/** Stretches of constant law a stage is made of. `memory` is set when the roast is in the oven already. */
export function phasesOf(stage: Stage, oven: OvenModel, memory: OvenMemory | undefined): Phase[] {
  const radiation = oven.radiationFactor;
  switch (stage.kind) {
    case 'temper': {
      const { roomC } = stage;
      const air = inAir({
        airC: roomC,
        wallC: roomC,
        filmWPerM2K: ROOM_FILM,
        radiationFactor: radiation,
        vapourPa: ROOM_VAPOUR_PA.temper,
      });
      return [{ ...constant(lengthOf(stage), air), stride: COUNTER_STRIDE }];
    }
    case 'rest': {
      const { roomC, tented } = stage;
      const cover = tented
        ? TENT
        : {
            filmWPerM2K: REST_FILM,
            radiationFactor: radiation,
            vapourPa: ROOM_VAPOUR_PA.rest,
          };
      return [constant(lengthOf(stage), inAir({ airC: roomC, wallC: roomC, ...cover }))];
    }
    case 'bath':
      return [constant(lengthOf(stage), inBath(stage))];
    case 'pan-sear':
      return panPhases(stage, radiation);
    case 'oven-sear':
    case 'roast':
      return [ovenPhase(stage, oven, memory)];
    case 'surroundings':
      return [ownPhase(stage)];
  }
}

const lengthOf = (stage: Exclude<Stage, PanSear>): number =>
  'minutes' in stage.until ? 60 * stage.until.minutes : Number.POSITIVE_INFINITY;

const inBath = ({ bathC }: Bath): Surroundings => ({
  airC: bathC,
  wallC: bathC,
  filmWPerM2K: BATH_FILM,
  vapourPa: 0,
  ...SEALED,
});

/**
 * The flux under a piece of meat is limited by its own wet, boiling patch, so it must not be spread over the girth: the line is
 * a typical spot, which waits, touches once, and waits again while the other faces are seared.
 */
function panPhases({ panC, faces, secondsPerFace }: PanSear, radiation: number): Phase[] {
  const over = inAir({ ...AFTER_HEAT, radiationFactor: radiation });
  const contact: Surroundings = {
    airC: panC,
    wallC: panC,
    filmWPerM2K: CONTACT_FILM,
    radiationFactor: 0,
    vapourPa: STANDARD_ATMOSPHERE_PA,
    vapourResistance: CONTACT_VAPOUR_RESISTANCE,
    condenses: false,
  };
  const waitS = ((faces - 1) / 2) * secondsPerFace;
  const phases = [
    constant(waitS, over),
    constant(CONTACT_SHARE * secondsPerFace, contact, over),
    constant(waitS + (1 - CONTACT_SHARE) * secondsPerFace, over),
  ];
  return phases.filter((phase) => phase.seconds > 0);
}

const ownPhase = (stage: OwnSurroundings): Phase => ({
  seconds: lengthOf(stage),
  expose: (atS, _humidity, side, ends) => {
    writeChecked(stage.at(atS), atS, side);
    Object.assign(ends, side);
  },
  restless: true,
});

function ovenPhase(
  stage: OvenRoast | OvenSear,
  oven: OvenModel,
  memory: OvenMemory | undefined,
): Phase {
  const fan = stage.kind === 'roast' && stage.fan;
  const film = fan ? oven.fanFilm : oven.stillFilm;
  const airEndC = stage.ovenC + oven.offsetK;
  const wallEndC = (stage.kind === 'oven-sear' ? GLOWING_WALL_C : airEndC) + oven.wallOffsetK;
  const approach = approachOf(stage, airEndC, wallEndC, memory);
  const vapourResistance = 1 / airFilmToVapour(film);
  const airAt = (s: number): number => airEndC - approach.airK * Math.exp(-s / approach.airDelayS);
  const wallAt = (s: number): number =>
    wallEndC - approach.wallK * Math.exp(-s / approach.wallDelayS);
  const roomHumidity = humidityOf(oven.roomVapourPa);
  return {
    seconds: lengthOf(stage),
    expose: (atS, humidity, side, ends) => {
      side.airC = airAt(atS);
      side.wallC = wallAt(atS);
      side.filmWPerM2K = film;
      side.radiationFactor = oven.radiationFactor;
      side.vapourPa = vapourPressureOf(humidity);
      side.vapourResistance = vapourResistance;
      side.condenses = true;
      Object.assign(ends, side);
    },
    box: {
      ventKgPerS: fan ? oven.fanVentKgPerS : oven.stillVentKgPerS,
      airKg: oven.airKg,
      roomHumidity,
      startHumidity: memory?.humidity ?? roomHumidity,
      memoryAt: (atS, humidity) => ({
        kind: stage.kind,
        setC: stage.ovenC,
        airC: airAt(atS),
        wallC: wallAt(atS),
        airDelayS: approach.airDelayS,
        wallDelayS: approach.wallDelayS,
        humidity,
      }),
    },
  };
}

interface Approach {
  readonly airK: number;
  readonly wallK: number;
  readonly airDelayS: number;
  readonly wallDelayS: number;
}

/** How far the oven is below its end temperatures when the stage begins, and how fast it closes the gap. */
function approachOf(
  stage: OvenRoast | OvenSear,
  airEndC: number,
  wallEndC: number,
  memory: OvenMemory | undefined,
): Approach {
  if (memory !== undefined) {
    const airK = airEndC - memory.airC;
    const wallK = wallEndC - memory.wallC;
    if (memory.kind === stage.kind && memory.setC === stage.ovenC) {
      return { airK, wallK, airDelayS: memory.airDelayS, wallDelayS: memory.wallDelayS };
    }
    const warming = stage.kind === 'oven-sear' ? GLOWING_DELAY_S : WARMING.wallDelayS;
    return {
      airK,
      wallK,
      airDelayS: airK > 0 ? WARMING.airDelayS : COOLING.airDelayS,
      wallDelayS: wallK > 0 ? warming : COOLING.wallDelayS,
    };
  }
  if (stage.kind === 'roast' && stage.start === 'cold') {
    return { airK: airEndC - ROOM_C, wallK: wallEndC - ROOM_C, ...WARMING };
  }
  return DOOR;
}
