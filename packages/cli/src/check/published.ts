import lethality from '../../../../data/published/lethality.json' with { type: 'json' };
import measuredRoasts from '../../../../data/published/measured-roasts.json' with { type: 'json' };
import referenceLines from '../../../../data/published/reference-lines.json' with { type: 'json' };
import roastingCharts from '../../../../data/published/roasting-charts.json' with { type: 'json' };
import thermalProperties from '../../../../data/published/thermal-properties.json' with {
  type: 'json',
};
import transientConduction from '../../../../data/published/transient-conduction.json' with {
  type: 'json',
};
import yields from '../../../../data/published/yields.json' with { type: 'json' };

/** Tables of `data/published` that the simulator is held against; the bundle carries them along. */
const TABLES = {
  lethality,
  'measured-roasts': measuredRoasts,
  'reference-lines': referenceLines,
  'roasting-charts': roastingCharts,
  'thermal-properties': thermalProperties,
  'transient-conduction': transientConduction,
  yields,
} as const;

/** A table by its file name without `.json`. The caller states what it expects to find in it. */
export const published = <T>(name: keyof typeof TABLES): T => TABLES[name] as unknown as T;
