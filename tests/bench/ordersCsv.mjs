import { randomFrom } from './randomFrom.mjs';

const SEED = 2026;

/**
 * A day's orders, made up from a seed, so that every run does the same work.
 *
 * @param {number} count
 */
export function ordersCsv(count) {
  const random = randomFrom(SEED);
  /** @type {<T>(list: readonly T[]) => T} */
  const one = (list) => list[Math.floor(random() * list.length)];
  const between = (/** @type {number} */ low, /** @type {number} */ high) =>
    low + random() * (high - low);
  const usual = /** @type {const} */ ({
    whole: [1.4, 2.8],
    centre: [0.7, 1.4],
    butt: [0.7, 1.2],
    tail: [0.35, 0.6],
  });
  const rows = Array.from({ length: count }, (_, i) => {
    const cut = one(
      /** @type {const} */ (['whole', 'whole', 'whole', 'centre', 'centre', 'butt', 'tail']),
    );
    const [low, high] = usual[cut];
    const kg = between(low, high);
    const us = random() < 0.3;
    const celsius = one([160, 180, 200, 220, 230]);
    return [
      `${one(['Ada', 'Bo', 'Çelik', 'Dóra', 'Ελένη', 'Наталія'])} ${one(['Åberg', 'Lind', 'Муха', 'Παππά', 'Żak'])} ${i + 1}`,
      `2026-12-${one([22, 23, 24])} ${one(['09:00', '10:30', '14:00', '16:30'])}`,
      us ? `${(kg / 0.45359237).toFixed(2)}lb` : `${kg.toFixed(2)}kg`,
      cut,
      us ? `${Math.round(celsius * 1.8 + 32)}F` : `${celsius}C`,
      one(['yes', 'no', '']),
      one(['rare', 'medium-rare', 'medium-rare', 'medium', '']),
      one(['', '18:30', '7pm']),
      one(['', '', 'pan', 'no']),
      random() < 0.05 ? 'yes' : '',
      one(['', '', 'wrapped as a gift', 'will be fetched by a neighbour']),
    ];
  });
  // the strict rules refuse a band below them
  for (const row of rows) if (row[9] === 'yes') row[6] = '';
  const head = [
    'name',
    'pick up',
    'weight',
    'cut',
    'oven',
    'fan',
    'doneness',
    'serve',
    'sear',
    'at risk',
    'note',
  ];
  return [head, ...rows].map((row) => row.join(';')).join('\n');
}
