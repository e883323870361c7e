import { bullets, fixed, page, range, span } from '../markdown.js';
import { ribStretch } from './holdOuts.js';
import { lowOvenFactors } from './ovens.js';
import { worstOfPlans } from './plans.js';

/** How near the default mesh comes to the limit it is held to, and why more stations are no sure help. */
function meshWords(): string {
  const { plans, within, askedK, offK, words } = worstOfPlans();
  // 40 to 46 stations were tried, each on all the plans
  return (
    `**The default mesh** keeps ${within} of ${plans} plans within the ${fixed(askedK, 2)} °C and half a percent asked; the temperature furthest off is ${fixed(offK, 3)} °C ` +
    `away (${words}). More stations are no sure help: 40, 41, 42 and 46 miss the limit where 43, 44 and 45 keep it, for the error hangs on where a ` +
    "slice's middle lies between two stations."
  );
}

/** Where not to trust it. */
export const weakestPage = (): string =>
  page(
    '## The weakest numbers, in plain words',
    bullets(
      `**Low and moderate ovens.** At 93-100 °C the model takes ${range(span(lowOvenFactors()), 1)} times the minutes reported; at 163 °C the way from 140 to 170 °F in ` +
        `the centre takes it ${range(span(ribStretch()), 1)} times as long as the one chart with widths says. The modelled surface dries too slowly.`,
      '**Carryover in a hot oven.** Above what the charts print for this roast, by an unknown thermometer; below what one logged block of beef did. It ' +
        'could be wrong by 3 K either way, and only logged tenderloins of known diameter can settle it: none was found.',
      '**Diameter from weight.** No measured tenderloin was found. The diameters were fitted together with how wet the surface stays, and the charts ' +
        'cannot separate the two. A tape round the roast is worth more than any other input.',
      "**The crust's and the oven's constants** (vapour resistance, vent flow, speed of the juice) fit six times and can be traded against each other.",
      '**Weight loss** suits 425 °F; it is too small in moderate ovens if the nutrient studies used one. Of two pieces of one shape the larger loses ' +
        'more in the model; the one study found says less.',
      '**Flat, squat, bone-in or fat-covered roasts**: expect 15 % either way, or worse.',
      '**Fan ovens**: the modelled fan speeds a roast up less than the one measured ratio says.',
      '**A slice finished in the pan** (remedies for guests): nothing published was found to hold its seconds against; the contact film is from memory, ' +
        'reported from 200 to 1200 W/(m²·K), and the slice is taken the same from face to face when it goes in.',
      "**The pull that a thermometer's log asks for** instead of the planned one was tried on simulated cooks only, which share the equations " +
        'of the fit. Even there it made the peak worse in three of ten.',
      meshWords(),
      '**What an order says of evenness** comes from a coarse mesh: over 144 cooks it is up to 1.1 points of loss, 3 % of time, 2.6 K of spread and 1.2 K of ' +
        'miss off the default mesh, and 1.3 K of miss off twice its stations. The bound of that test was moved from 1.2 to 1.25 K when the default mesh became finer.',
      '**Slack and lead times** of the timetable: how an oven heats up is common practice without a source, and what a slip may cost is judgement.',
      '**Lethality** rests on one table from 1999; low temperatures alone prove nothing.',
    ),
  );
