import {
  bandOf,
  durationText,
  type GuestOption,
  lengthText,
  massText,
  type Place,
  type Plan,
  type Remedy,
  riseText,
  type SettledWish,
  temperatureText,
  type UnitSystem,
  type Way,
} from '@roastsim/core';
import type { GuestTable } from '../ask/planned.js';
import { paragraph } from './wrap.js';

/** `rare`, or `60 °C` where a temperature was wished for. */
export const wishText = ({ band, exact, targetC }: SettledWish, units: UnitSystem): string =>
  exact ? temperatureText(targetC, units) : band.name;

/** `2.3 K`-like differences in the person's degrees, `2.3 °C too rare`. */
function missText(missK: number, units: UnitSystem): string {
  const off = riseText(Math.abs(missK), units, 1);
  return `${off} too ${missK < 0 ? 'rare' : 'done'}`;
}

/** Who eats a slice: `Ada (rare)`, `rare`. */
export function guestText({ wish }: Place, units: UnitSystem): string {
  const wished = wishText(wish, units);
  return wish.name === undefined ? wished : `${wish.name} (${wished})`;
}

/** `3 rare, 4 medium-rare, 1 at 60 °C`. */
export function wishesText(wishes: readonly SettledWish[], units: UnitSystem): string {
  const counts = new Map<string, number>();
  for (const wish of wishes) {
    const text = `${wish.exact ? 'at ' : ''}${wishText(wish, units)}`;
    counts.set(text, (counts.get(text) ?? 0) + 1);
  }
  return [...counts].map(([text, count]) => `${count} ${text}`).join(', ');
}

const metText = (met: number, guests: number): string =>
  met === guests
    ? `${guests === 1 ? '' : `all ${guests} `}as wished`
    : `${met} of ${guests} as wished`;

/** `2.3 °C`, and `less than 0.1 °C` where it would round to nothing. */
function offText(misfitK: number, units: UnitSystem): string {
  const least = riseText(0.1 * (units === 'us' ? 5 / 9 : 1), units, 1);
  const text = riseText(misfitK, units, 1);
  return text === riseText(0, units, 1) ? `less than ${least}` : text;
}

/** `7 of 8 as wished, 2.3 °C off in all`. */
const fitText = (
  { met, misfitK }: { readonly met: number; readonly misfitK: number },
  guests: number,
  units: UnitSystem,
): string =>
  `${metText(met, guests)}${met === guests ? '' : `, ${offText(misfitK, units)} off in all`}`;

/** Slices with the guests that get them, and what else could be done. */
export function guestReport(plan: Plan, table: GuestTable, units: UnitSystem): string {
  const { seating, wishes, search } = table;
  const guests = wishes.length;
  const parts = [
    [
      `Who gets which slice: ${fitText(seating, guests, units)}`,
      '',
      ...sliceLines(plan, table, units),
    ].join('\n'),
    ...spareText(plan, table, units),
  ];
  if (search === undefined) {
    if (seating.met < guests) {
      parts.push(paragraph('', 'A pull chosen for the guests (--at guests) may meet more wishes.'));
    }
    return parts.join('\n\n');
  }
  const { best, others, remedies } = search;
  const chosen = changesText(best.way, units);
  if (chosen !== '') parts.push(paragraph('', `Chosen for the guests: ${chosen}.`));
  if (remedies.length > 0) {
    parts.push(
      [
        remedies[0].met > seating.met
          ? 'To meet more wishes (each simulated):'
          : 'To come closer to the wishes (each simulated):',
        ...remedies.map((remedy) => paragraph('  - ', remedyText(remedy, guests, units))),
      ].join('\n'),
    );
  } else if (seating.met < guests) {
    parts.push(
      paragraph(
        '',
        'Not all wishes can be met, and neither a moment in the pan, two pieces nor centre cut would meet more.',
      ),
    );
  }
  if (others.length > 0) {
    parts.push(
      [
        'Next best:',
        ...others.map((other) => paragraph('  - ', otherText(other, best, guests, units))),
      ].join('\n'),
    );
  }
  return parts.join('\n\n');
}

function sliceLines(plan: Plan, { seating, slicePeakC }: GuestTable, units: UnitSystem): string[] {
  const bySlice = new Map(seating.places.map((place) => [place.slice, place]));
  const rows = plan.slices.map((_, slice) => {
    const place = bySlice.get(slice);
    const peak = temperatureText(slicePeakC[slice], units);
    const band = bandOf(plan.aim.scale, slicePeakC[slice]).name;
    const who =
      place === undefined
        ? 'left over'
        : `for ${guestText(place, units)}${place.missK === 0 ? '' : `: ${missText(place.missK, units)}`}`;
    return { mark: `${String(slice + 1).padStart(4)}  ${peak.padStart(6)} ${band}`, who };
  });
  const width = Math.max(...rows.map(({ mark }) => mark.length)) + 3;
  return rows.map(({ mark, who }) => paragraph(mark.padEnd(width), who));
}

function spareText(plan: Plan, table: GuestTable, units: UnitSystem): string[] {
  const { seating, leftoversKg } = table;
  const spareKg = seating.spare.reduce((sum, slice) => sum + plan.slices[slice].servedKg, 0);
  if (seating.spare.length === 0 && leftoversKg === undefined) return [];
  const wanted = leftoversKg === undefined ? '' : `; wanted ${massText(leftoversKg, units)}`;
  const short =
    leftoversKg !== undefined && spareKg < leftoversKg
      ? ' (a larger roast is needed: roastsim order)'
      : '';
  const left = seating.spare.length === 0 ? 'nothing' : `about ${massText(spareKg, units)} cooked`;
  return [paragraph('', `Left over: ${left}${wanted}${short}.`)];
}

/** What was changed for the guests: `oven 180 °C, tail not folded`; empty when nothing was. */
function changesText({ changed, heat, sear, roast, carving }: Way, units: UnitSystem): string {
  const oven = heat.kind === 'roast' ? `oven at ${temperatureText(heat.ovenC, units)}` : '';
  const texts = {
    oven,
    sear: { none: 'no sear', first: 'seared first', last: 'seared after the oven' }[sear],
    fold: roast.folded ? 'tail folded' : 'tail not folded',
    carving:
      carving === undefined
        ? ''
        : `carving ${carving.startMinutes} min into the rest, one slice a minute from the ` +
          `${carving.from === 'first-end' ? 'thick' : 'thin'} end`,
  };
  return changed.map((what) => texts[what]).join(', ');
}

function otherText(
  other: GuestOption,
  best: GuestOption,
  guests: number,
  units: UnitSystem,
): string {
  const minutes = Math.round(other.totalMinutes - best.totalMinutes);
  const later =
    minutes === 0 ? 'as long' : `${Math.abs(minutes)} min ${minutes > 0 ? 'longer' : 'shorter'}`;
  const changes = changesText(other.way, units);
  const way = changes === '' ? (best.way.changed.length > 0 ? ', as asked' : '') : `, ${changes}`;
  return `pull at ${temperatureText(other.pullCentreC, units)}${way}: ${fitText(other.seating, guests, units)}, ${later}`;
}

function remedyText(remedy: Remedy, guests: number, units: UnitSystem): string {
  const result = fitText(remedy, guests, units);
  if (remedy.kind === 'pan') {
    const { option, finishes } = remedy;
    const panC = temperatureText(finishes[0]?.panC ?? 0, units);
    const slices = [...finishes]
      .sort((a, b) => a.slice - b.slice)
      .map(
        ({ slice, wish, secondsPerSide }) =>
          `${slice + 1} (${wishText(wish, units)}) ${secondsPerSide} s`,
      );
    return (
      `pull at ${temperatureText(option.pullCentreC, units)} and finish slices in a pan at ${panC}, each side: ` +
      `${slices.join(', ')}: ${result}`
    );
  }
  const pulls = remedy.pieces.map(
    ({ pullCentreC, heatMinutes }) =>
      `at ${temperatureText(pullCentreC, units)} after ${durationText(heatMinutes)}`,
  );
  if (remedy.kind === 'pieces') {
    const atMm = remedy.pieces[0].toMm ?? 0;
    return (
      `cut the roast in two, ${lengthText(atMm, units)} from the thick end, and pull each by its own thermometer: the thick ` +
      `piece ${pulls[0]}, the thin one ${pulls[1]}: ${result}`
    );
  }
  const masses = remedy.pieces.map(({ massKg }) => massText(massKg, units)).join(' and ');
  return `roast centre cut instead, ${masses}, pulled ${pulls.join(' and ')}: ${result}`;
}
