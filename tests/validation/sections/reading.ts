import { bullets, page } from '../markdown.js';

/** What the page is, and which of its numbers are tests at all. */
export const readingSection = (): string =>
  page(
    '# Validation',
    'Written by `pnpm validation` from the library and `data/published`; a test fails when this page is stale. Do not edit it by hand.',
    '## How to read this page',
    bullets(
      '**Fits** show nothing but that the fit worked. Three things were calibrated together on six tenderloin rows of the trade charts (425 °F; ' +
        "135, 145 and 150 °F): the greatest diameter of whole and centre cut for their weight, the crust's resistance to vapour, and the oven's vent flow. " +
        'The lethality line was fitted to the table it is compared with.',
      '**Checks** were in sight while the model was built, and the judgement behind its other constants may lean on them, though none was fitted to them: ' +
        'rises while standing, losses, the government charts, measured properties of beef.',
      '**Hold-outs** were never tuned on: other cuts, the rolled rib with its widths, measured roasts, fan and low ovens.',
      'Charts are rounded to 5 or 15 minutes, pad for safety, and state neither diameter, pan nor where the thermometer stood. Being inside a window makes a ' +
        'model plausible, not right.',
      '"Front" is the evaporation front under the crust; temperatures differ in kelvin (K); a rise of 1 K is 1.8 °F. "Never" means that the temperature is not reached.',
    ),
  );
