import { LIST_LIMIT, plain } from './text.js';
import { duration, length, mass, temperature, type UnitSystem, unitNamed } from './units.js';

const UNIT_AFTER_NUMBER = /\d\.? ?([^\d+\-.,/:;@]+)/g;

/**
 * The system of the units in a weight, a temperature, a length or a list of measures, so that answers can come in the units the
 * person typed. Never throws.
 *
 * @returns `undefined` when there is no unit in the text, when both systems are, or when the text is a time (`1h20m`); a lone
 * `m` is taken as metres, so do not ask about durations
 */
export function unitSystemOf(text: string): UnitSystem | undefined {
  const systems = new Set<UnitSystem>();
  for (const [, typed = ''] of plain(text.slice(0, LIST_LIMIT)).matchAll(UNIT_AFTER_NUMBER)) {
    const unit = [mass, temperature, length, duration]
      .map((kind) => unitNamed(typed.trim(), kind))
      .find((each) => each !== undefined);
    if (unit === undefined) continue;
    if (unit.system === undefined) return undefined;
    systems.add(unit.system);
  }
  const [system] = systems;
  return systems.size === 1 ? system : undefined;
}
