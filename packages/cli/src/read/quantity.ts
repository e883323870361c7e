import { nearest } from './nearest.js';
import { type Part, readParts } from './parts.js';
import { plainText, printable, type Reading, refuse } from './text.js';
import { type Kind, measuredBy, type Unit, unitNamed, unitStem } from './units.js';

/** The text of `reading` as one quantity of `kind`, in the base unit of the kind. */
export function readQuantity(reading: Reading, kind: Kind): number {
  return quantityOf(readParts(plainText(reading), reading), kind, reading);
}

/**
 * Adds up the parts of one quantity: `4lb 8oz`.
 *
 * @returns the sum in the base unit of `kind`
 * @throws RoastError `missing-unit`; `wrong-unit` for a unit of something else or of nothing; `contradiction` when parts are
 * repeated, go from small to large, mix metric and US units, or when one that is not the smallest is not whole or one that is
 * not the largest would fill the one before it
 */
export function quantityOf(parts: readonly Part[], kind: Kind, reading: Reading): number {
  let sum = 0;
  let before: Measured | undefined;
  for (const part of parts) {
    const unit = unitOf(part, parts.length > 1, kind, reading);
    if (before !== undefined) {
      const fault = misfit(before, { part, unit }, kind);
      if (fault !== undefined) refuse(reading, 'contradiction', fault);
    }
    sum += unit.inBase(part.value);
    before = { part, unit };
  }
  return sum;
}

/** Refuses a quantity that is not above 0. */
export function mustBePositive(value: number, kind: Kind, reading: Reading): number {
  if (value <= 0) refuse(reading, 'out-of-range', `${kind.one} has to be more than 0`);
  return value;
}

interface Measured {
  readonly part: Part;
  readonly unit: Unit;
}

function unitOf(part: Part, severalParts: boolean, kind: Kind, reading: Reading): Unit {
  const unit = unitNamed(part.unitText, kind);
  if (unit !== undefined) return unit;
  const stem = unitStem(part.unitText, kind);
  if (stem === '') {
    const choices = kind.readings.map(
      ([symbol, word]) => `${part.numberText}${symbol} for ${word}`,
    );
    return severalParts
      ? refuse(reading, 'missing-unit', `the ${part.numberText} in it has no unit`)
      : refuse(
          reading,
          'missing-unit',
          `${kind.one} needs a unit`,
          `write ${choices.join(' or ')}`,
        );
  }
  const shown = printable(part.unitText);
  const other = measuredBy(part.unitText);
  if (other !== undefined && other !== kind.name) {
    refuse(reading, 'wrong-unit', `${shown} is a unit of ${other}, not of ${kind.name}`);
  }
  const spellings = kind.units.flatMap(({ symbol, spellings }) => [
    symbol.toLowerCase(),
    ...spellings,
  ]);
  const near = nearest(stem, spellings);
  return refuse(
    reading,
    'wrong-unit',
    `${shown} is not a unit of ${kind.name} known here`,
    near === undefined ? undefined : `did you mean ${unitNamed(near, kind)?.symbol}?`,
  );
}

/** Why `second` cannot follow `first` in one quantity, if it cannot. */
function misfit(first: Measured, second: Measured, kind: Kind): string | undefined {
  const { symbol } = second.unit;
  if (first.unit === second.unit) return `${symbol} stands in it twice`;
  if (first.unit.system !== second.unit.system)
    return `it mixes ${first.unit.symbol} and ${symbol}`;
  if (kind.units.indexOf(first.unit) > kind.units.indexOf(second.unit)) {
    return `${symbol} has to stand before ${first.unit.symbol}`;
  }
  if (!Number.isInteger(first.part.value)) {
    return `only the last number may have a fraction, and ${first.part.numberText} is not the last`;
  }
  return second.unit.inBase(second.part.value) < first.unit.inBase(1)
    ? undefined
    : `${second.part.numberText} ${symbol} is as much as 1 ${first.unit.symbol} or more`;
}
