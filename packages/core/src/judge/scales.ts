import { RoastError } from '../errors.js';

/** A named interval of doneness: centre temperatures from `fromC` up to the next band's `fromC`. */
export interface Band {
  readonly name: string;
  /** Lower edge [°C]; the first band of a scale starts at -Infinity. */
  readonly fromC: number;
  /** Centre temperature aimed at for this band [°C], at its peak. */
  readonly targetC: number;
}

/** A doneness scale: bands from the rarest up, and where its figures come from. */
export interface Scale {
  readonly name: string;
  readonly source: string;
  readonly bands: readonly Band[];
  /** Name of the band from which meat is done through; what lies beyond it in a slice counts as rim. */
  readonly doneThrough: string;
}

const plain = (text: string): string => text.toLowerCase().replace(/[\s_-]/g, '');

const NO_EDGE = Number.NEGATIVE_INFINITY;

/**
 * Scales to choose from. They are conventions: the culinary and the scientific family differ by 6 to 10 K for the same word, so
 * a plan always says which one it uses.
 */
export const SCALES = {
  /** Edges close the gaps between published ranges at their midpoints; targets are the middles of the ranges in °F, rounded. */
  kitchen: {
    name: 'kitchen',
    source:
      'ranges of culinary textbooks and charts: rare 49-52 °C (120-125 °F), medium-rare 54-57 (130-135), medium 60-63 ' +
      '(140-145), medium-well 66-68 (150-155), well-done 71 (160) and up; gaps closed at their midpoints; target of ' +
      'very-rare: judgement',
    doneThrough: 'well-done',
    bands: [
      { name: 'very-rare', fromC: NO_EDGE, targetC: 47 },
      { name: 'rare', fromC: 49, targetC: 50 },
      { name: 'medium-rare', fromC: 53, targetC: 56 },
      { name: 'medium', fromC: 58.5, targetC: 61 },
      { name: 'medium-well', fromC: 64.5, targetC: 67 },
      { name: 'well-done', fromC: 69.5, targetC: 71 },
    ],
  },
  /** End points become bands by closing half-way to their neighbours. */
  amsa: {
    name: 'amsa',
    source:
      'American Meat Science Association (2016) Research Guidelines for Cookery, Sensory Evaluation, and Instrumental ' +
      'Tenderness Measurements of Meat: end points 54, 60, 63, 71, 77, 82 °C; medium-well 74 °C after Prill et al. 2019, ' +
      'Meat and Muscle Biology 3(1); edges half-way between',
    doneThrough: 'well-done',
    bands: [
      { name: 'very-rare', fromC: NO_EDGE, targetC: 54 },
      { name: 'rare', fromC: 57, targetC: 60 },
      { name: 'medium-rare', fromC: 61.5, targetC: 63 },
      { name: 'medium', fromC: 67, targetC: 71 },
      { name: 'medium-well', fromC: 72.5, targetC: 74 },
      { name: 'well-done', fromC: 75.5, targetC: 77 },
      { name: 'very-well-done', fromC: 79.5, targetC: 82 },
    ],
  },
} as const satisfies Record<string, Scale>;

/** Name of a scale that comes with the library. */
export type ScaleName = keyof typeof SCALES;

/**
 * Checks a scale of the caller's own and gives it back; the library's functions take any scale and trust it.
 *
 * @throws RoastError `missing` (no band, no name), `contradiction` (a first band with an edge, edges that do not rise, a target outside its band, a
 *   name twice), `unknown-name` (`doneThrough` is not a band)
 * @example
 * const house = donenessScale({
 *   name: 'house',
 *   source: 'what our guests say',
 *   bands: [
 *     { name: 'pink', fromC: -Infinity, targetC: 55 },
 *     { name: 'done', fromC: 62, targetC: 66 },
 *   ],
 *   doneThrough: 'done',
 * })
 * bandOf(house, 58).name // => 'pink'
 */
export function donenessScale(scale: Scale): Scale {
  const { bands } = scale;
  if (bands.length === 0 || scale.name === '' || bands.some(({ name }) => name === '')) {
    throw new RoastError('a doneness scale needs a name, and bands with names', {
      code: 'missing',
      path: ['bands'],
      found: bands.length,
      accepted: 'a name and one band or more, each with a name',
    });
  }
  const names = bands.map(({ name }) => plain(name));
  for (const [index, { name, fromC, targetC }] of bands.entries()) {
    const risen = index === 0 ? fromC === NO_EDGE : fromC > bands[index - 1].fromC;
    const within = targetC >= fromC && targetC < upperEdge(scale, index);
    if (risen && within && Number.isFinite(targetC) && names.indexOf(names[index]) === index) {
      continue;
    }
    throw new RoastError(`the band "${name}" does not fit into the ${scale.name} scale`, {
      code: 'contradiction',
      path: ['bands', index],
      found: bands[index],
      accepted:
        'other names for other bands, a first band from -Infinity, edges that rise, each target inside its band',
    });
  }
  bandNamed(scale, scale.doneThrough);
  return scale;
}

/** Centre temperatures that can be aimed at or wished for [°C]. */
export const TARGET_C = [35, 85] as const;

/**
 * Index of the band a centre temperature [°C] falls in.
 *
 * @example
 * bandIndex(SCALES.kitchen, 56) // => 2
 */
export function bandIndex(scale: Scale, centreC: number): number {
  let index = 0;
  while (index + 1 < scale.bands.length && centreC >= scale.bands[index + 1].fromC) index++;
  return index;
}

/**
 * Band a centre temperature [°C] falls in.
 *
 * @example
 * bandOf(SCALES.kitchen, 56).name // => 'medium-rare'
 */
export const bandOf = (scale: Scale, centreC: number): Band =>
  scale.bands[bandIndex(scale, centreC)];

/**
 * Upper edge of a band [°C]; Infinity for the last.
 *
 * @example
 * upperEdge(SCALES.kitchen, 0) // => 49
 */
export const upperEdge = (scale: Scale, index: number): number =>
  index + 1 < scale.bands.length ? scale.bands[index + 1].fromC : Number.POSITIVE_INFINITY;

/**
 * Temperature from which meat is done through on a scale [°C].
 *
 * @example
 * doneThroughC(SCALES.kitchen) // => 69.5
 */
export const doneThroughC = (scale: Scale): number => bandNamed(scale, scale.doneThrough).fromC;

/**
 * Band of a name; case, spaces and hyphens do not matter.
 *
 * @throws RoastError `unknown-name`
 * @example
 * bandNamed(SCALES.kitchen, 'Medium Rare').targetC // => 56
 */
export function bandNamed(scale: Scale, name: string): Band {
  const band = scale.bands.find((candidate) => plain(candidate.name) === plain(name));
  if (band !== undefined) return band;
  const accepted = scale.bands.map((b) => b.name).join(', ');
  throw new RoastError(`there is no doneness "${name}" on the ${scale.name} scale`, {
    code: 'unknown-name',
    path: ['doneness'],
    found: name,
    accepted,
  });
}
