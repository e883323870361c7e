import {
  bandIndex,
  cautions,
  durationText,
  isHeat,
  lengthText,
  massText,
  type Plan,
  planCook,
  riseText,
  sayWarning,
  servingMinutes,
  temperatureText,
  twineFor,
  type UnitSystem,
} from '@roastsim/core';
import { type PlanOrder, type PlanWords, pointingAt } from '../../read/planOptions.js';
import type { ShopSettings } from '../../read/settings.js';
import { type Clock, clockFrom } from '../clock.js';
import { initials } from '../section.js';
import { roastTitle, timetableRows } from '../text.js';
import { cardChart } from './cardChart.js';
import type { CardFact, CardModel, CardStep, KeyNumber, Paper } from './cardModel.js';
import { readLogo } from './logo.js';
import { roastDrawing } from './roastDrawing.js';
import { sectionDrawing } from './sectionDrawing.js';

/** One card to make. */
export interface CardOrder {
  readonly words: PlanWords;
  readonly order: PlanOrder;
  /** Who it is for. */
  readonly forWhom?: string;
  /** Day of pick-up, ISO 8601: `2026-12-24`, with or without a time. */
  readonly pickUp?: string;
  readonly note?: string;
  readonly paper?: Paper;
  /** Clock of a serving whose day is known; else days of 24 hours are counted back. */
  readonly clock?: Clock;
  /** When it is served, in words; else as typed. */
  readonly serve?: string;
}

const ROAST_MM = 128; // width of the side view on the smallest paper
const SECTION_MM = 31; // height of the cross-section there
const SALT_SHARE = 0.01; // of the raw weight: common practice, no source

/** Plans an order; errors point at its options. */
export const planOrder = ({ words, order }: CardOrder): Plan =>
  pointingAt(undefined, words, () => planCook(order.roast, order.request));

/** A card from a plan: every word and line on it. */
export async function buildCard(
  card: CardOrder,
  plan: Plan,
  settings: ShopSettings = {},
): Promise<CardModel> {
  const { order, words } = card;
  const { units, serveMinutes } = order;
  const locale = settings.locale ?? 'en-GB';
  const shop =
    settings.name === undefined
      ? undefined
      : {
          name: settings.name,
          address: settings.address ?? [],
          ...(settings.footer === undefined ? {} : { footer: settings.footer }),
          ...(settings.logoFile === undefined
            ? {}
            : { logo: await readLogo(settings.logoFile, settings.name) }),
        };
  return {
    paper: card.paper ?? settings.paper ?? 'a5',
    language: 'en',
    units,
    ...(shop === undefined ? {} : { shop }),
    ...(card.forWhom === undefined ? {} : { forWhom: card.forWhom }),
    ...(card.pickUp === undefined ? {} : { pickUp: dayText(card.pickUp, locale) }),
    ...(serveMinutes === undefined
      ? {}
      : { serve: `Serve at ${card.serve ?? words.serve?.trim() ?? ''}` }),
    ...(card.note === undefined ? {} : { note: card.note }),
    title: roastTitle(plan, units),
    wanted: wantedText(plan, units),
    keys: keyNumbers(plan, units),
    steps: cardSteps(plan, units, card.clock ?? clockOf(plan, serveMinutes)),
    roast: roastDrawing(plan, units, ROAST_MM),
    section: sectionDrawing(plan, units, SECTION_MM),
    legend: legendOf(plan),
    chart: await cardChart(plan, units),
    facts: factsOf(plan, units),
    guests: [],
    notices: plan.warnings.map((warning) => sayWarning(warning, units)),
    // what to do with leftovers stands among the facts
    cautions: cautions(units)
      .filter(({ code }) => code !== 'leftovers')
      .map(({ text }) => text),
  };
}

/** `2026-12-24T16:00` as `Thursday 24 December 2026, 16:00`; a day has no time zone here. */
function dayText(iso: string, locale: string): string {
  const day = new Intl.DateTimeFormat(locale, { dateStyle: 'full', timeZone: 'UTC' }).format(
    new Date(`${iso.slice(0, 10)}T00:00:00Z`),
  );
  const time = /T(\d\d:\d\d)/.exec(iso)?.[1];
  return time === undefined ? day : `${day}, ${time}`;
}

const PLACE = { middle: 'in the middle', thick: 'at the thick end', thin: 'at the thin end' };

function wantedText({ aim }: Plan, units: UnitSystem): string {
  const target = temperatureText(aim.targetC, units);
  return aim.at === 'coldest'
    ? `at least ${target} throughout (strict safety rules)`
    : `${aim.band.name}: ${target} ${PLACE[aim.at]}`;
}

function keyNumbers(plan: Plan, units: UnitSystem): [KeyNumber, KeyNumber, KeyNumber] {
  const { history, pull, peak, aim, firstLook } = plan;
  const heats = history.stages.filter(({ stage }) => isHeat(stage));
  const { stage } = heats[heats.length - 1];
  const where = aim.at === 'coldest' ? 'at the coldest spot' : PLACE[aim.at];
  const climbs =
    peak.riseC < 0.5
      ? `${where}; it climbs no further`
      : `${where}; climbs ${riseText(peak.riseC, units)} to ${temperatureText(peak.centreC, units)} at rest`;
  const heat: KeyNumber =
    stage.kind === 'bath'
      ? {
          label: 'Water bath',
          value: temperatureText(stage.bathC, units),
          detail: 'stirred; roast sealed in a bag',
        }
      : stage.kind === 'roast'
        ? {
            label: 'Oven',
            value: temperatureText(stage.ovenC, units),
            detail: `${stage.start === 'cold' ? 'from cold' : 'hot before it goes in'}, ${stage.fan ? 'fan on' : 'no fan'}`,
          }
        : { label: 'Heat', value: '', detail: '' };
  const looked = Math.round(firstLook.atMinutes - (pull.atMinutes - pull.heatMinutes));
  return [
    heat,
    {
      label: 'Time',
      value: durationText(pull.minutes),
      detail: `about; look first after ${durationText(looked)}`,
    },
    { label: 'Pull at', value: temperatureText(pull.centreC, units), detail: climbs },
  ];
}

const clockOf = (plan: Plan, serveMinutes: number | undefined): Clock | undefined =>
  serveMinutes === undefined ? undefined : clockFrom(serveMinutes, servingMinutes(plan));

function cardSteps(plan: Plan, units: UnitSystem, clock: Clock | undefined): CardStep[] {
  return timetableRows(plan, units)
    .filter(({ kind }) => kind !== 'wash' && kind !== 'serve') // a caution says it; serving stands on top
    .map(({ minutes, text, strong }) => ({
      minutes: String(Math.round(minutes)),
      ...(clock === undefined ? {} : { clock: clock.at(minutes) }),
      text,
      strong: strong === true,
    }));
}

/** Bands drawn anywhere on the card, rarest first. */
function legendOf({ aim, slices, history }: Plan): string[] {
  const hottest = history.hottestC;
  const used = new Set(slices.map(({ peakCentreC }) => bandIndex(aim.scale, peakCentreC)));
  for (const tempC of hottest) used.add(bandIndex(aim.scale, tempC));
  return aim.scale.bands
    .filter((_, index) => used.has(index))
    .map(({ name }) => `${initials(name)} ${name}`);
}

function factsOf(plan: Plan, units: UnitSystem): CardFact[] {
  const { roast, loss, history } = plan;
  const twine = twineFor(roast.profile);
  const resting = history.stages.findLast(({ stage }) => stage.kind === 'rest');
  const served = massText(roast.massKg * (1 - loss.fraction), units);
  return [
    {
      label: 'Salt',
      text: `${massText(SALT_SHARE * roast.massKg, units)}, up to a day ahead`,
    },
    {
      label: 'Twine',
      text: roast.tied
        ? `${twine.atMm.length} ties, ${lengthText(twine.spacingMm, units)} apart`
        : 'none',
    },
    {
      label: 'Rest',
      text:
        resting?.stage.kind === 'rest'
          ? `${durationText((resting.endS - resting.startS) / 60)}${resting.stage.tented ? ' under loose foil' : ', uncovered'}`
          : 'none',
    },
    { label: 'Served', text: `about ${served}` },
    {
      label: 'Leftovers',
      text: `cold within 2 hours, eaten within 3 to 4 days, reheated to ${temperatureText(73.9, units)}`,
    },
  ];
}
