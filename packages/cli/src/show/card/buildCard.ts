import {
  bandOf,
  cautions,
  durationText,
  isHeat,
  lengthText,
  massText,
  type Plan,
  type Scale,
  sayWarning,
  servingMinutes,
  temperatureText,
  twineFor,
  type UnitSystem,
} from '@roastsim/core';
import type { GuestTable, Planned } from '../../ask/planned.js';
import type { PlanOrder, PlanWords } from '../../read/planOptions.js';
import type { ShopSettings } from '../../read/settings.js';
import { type Clock, clockFrom, clockText } from '../clock.js';
import { dayText, timeOf } from '../daySheet.js';
import { wishesText, wishText } from '../guests.js';
import { spanText } from '../range.js';
import { initials } from '../section.js';
import { roastTitle } from '../text.js';
import { type Row, timetableRows } from '../timetable.js';
import { bandsOn } from './bands.js';
import { cardCharts } from './cardChart.js';
import type { CardFact, CardGuest, CardModel, CardStep, KeyNumber, Paper } from './cardModel.js';
import { logoOf } from './logo.js';
import { roastDrawing } from './roastDrawing.js';
import { sectionDrawing, sectionSlice } from './sectionDrawing.js';

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

/** A card from a plan: every word and line on it. */
export async function buildCard(
  card: CardOrder,
  { plan, table, range }: Planned,
  settings: ShopSettings = {},
): Promise<CardModel> {
  const { order } = card;
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
            : { logo: await logoOf(settings.logoFile, settings.name) }),
        };
  return {
    paper: card.paper ?? settings.paper ?? 'a5',
    language: 'en',
    units,
    ...(shop === undefined ? {} : { shop }),
    ...(card.forWhom === undefined ? {} : { forWhom: card.forWhom }),
    ...(card.pickUp === undefined ? {} : { pickUp: pickUpText(card.pickUp, locale) }),
    ...(serveMinutes === undefined
      ? {}
      : { serve: `Serve at ${card.serve ?? clockText(serveMinutes)}` }),
    ...(card.note === undefined ? {} : { note: card.note }),
    title: roastTitle(plan, units),
    wanted: wantedText(plan, table, units),
    keys: keyNumbers(plan, range, units),
    steps: cardSteps(plan, units, card.clock ?? clockOf(plan, serveMinutes)),
    roast: roastDrawing(plan, units, ROAST_MM),
    section: sectionDrawing(plan, units, SECTION_MM),
    sectionTitle: `Slice ${sectionSlice(plan) + 1}, cut across`,
    legend: bandsOn(plan).map((name) => `${initials(name)} ${name}`),
    charts: cardCharts(plan, units),
    facts: factsOf(plan, units),
    guests: table === undefined ? [] : guestsOf(table, plan.aim.scale, units),
    notices: plan.warnings.map((warning) => sayWarning(warning, units)),
    // what to do with leftovers stands among the facts
    cautions: cautions(
      units,
      plan.warnings.map(({ code }) => code),
    )
      .filter(({ code }) => code !== 'leftovers')
      .map(({ text }) => text),
  };
}

/** `2026-12-24T16:00` as `Thursday 24 December 2026, 16:00`. */
const pickUpText = (iso: string, locale: string): string =>
  [dayText(iso.slice(0, 10), locale), timeOf(iso)].filter((text) => text !== '').join(', ');

const PLACE = { middle: 'in the middle', thick: 'at the thick end', thin: 'at the thin end' };

function wantedText({ aim }: Plan, table: GuestTable | undefined, units: UnitSystem): string {
  // where the guests decided, they say what is wanted
  if (table?.search !== undefined) return wishesText(table.wishes, units);
  const target = temperatureText(aim.targetC, units);
  return aim.at === 'coldest'
    ? `at least ${target} throughout (strict safety rules)`
    : `${aim.band.name}: ${target} ${PLACE[aim.at]}`;
}

const SPOT = {
  middle: 'in the middle',
  thick: 'thick end',
  thin: 'thin end',
  coldest: 'coldest spot',
};
const IN_HEAT = { roast: 'In the oven', bath: 'In the bath' };

/** Their details are short enough for one line each on the smallest paper: about 32 characters. */
function keyNumbers(
  plan: Plan,
  range: Planned['range'],
  units: UnitSystem,
): [KeyNumber, KeyNumber, KeyNumber] {
  const { history, pull, peak, aim, firstLook } = plan;
  const heats = history.stages.map(({ stage }) => stage).filter(isHeat);
  const stage = heats[heats.length - 1];
  const alike = heats.every(({ kind }) => kind === stage.kind);
  const climbs = peak.riseC < 0.5 ? 'no further' : `to ${temperatureText(peak.centreC, units)}`;
  const heat: KeyNumber =
    stage.kind === 'bath'
      ? {
          label: 'Water bath',
          value: temperatureText(stage.bathC, units),
          detail: 'stirred; sealed in a bag',
        }
      : {
          label: 'Oven',
          value: temperatureText(stage.ovenC, units),
          detail: `${stage.start === 'cold' ? 'from cold' : 'hot before it goes in'}, ${stage.fan ? 'fan on' : 'no fan'}`,
        };
  const looked = Math.floor(firstLook.atMinutes - (pull.atMinutes - pull.heatMinutes));
  return [
    heat,
    {
      label: alike ? IN_HEAT[stage.kind] : 'In the heat',
      value: durationText(pull.minutes),
      detail:
        range === undefined
          ? `about; look first after ${durationText(looked)}`
          : `may be ${spanText(range)} min; look at ${looked}`,
    },
    {
      label: 'Pull (take out) at',
      value: temperatureText(pull.centreC, units),
      detail: `${SPOT[aim.at]}; climbs ${climbs}`,
    },
  ];
}

function guestsOf(
  { seating, slicePeakC }: GuestTable,
  scale: Scale,
  units: UnitSystem,
): CardGuest[] {
  return seating.places.map(({ wish, slice }) => ({
    ...(wish.name === undefined ? {} : { name: wish.name }),
    wish: wishText(wish, units),
    slice: slice + 1,
    band: bandOf(scale, slicePeakC[slice]).name,
    peakC: slicePeakC[slice],
  }));
}

const clockOf = (plan: Plan, serveMinutes: number | undefined): Clock | undefined =>
  serveMinutes === undefined ? undefined : clockFrom(serveMinutes, servingMinutes(plan));

/** A caution says to wash, and serving stands on top; of two checks the later tells what to do. */
function isOnCard({ kind }: Row, index: number, rows: readonly Row[]): boolean {
  if (kind === 'wash' || kind === 'serve') return false;
  return kind !== 'check' || !rows.slice(index + 1).some((row) => row.kind === 'check');
}

function cardSteps(plan: Plan, units: UnitSystem, clock: Clock | undefined): CardStep[] {
  return timetableRows(plan, units)
    .filter(isOnCard)
    .map(({ minutes, text, strong }) => ({
      minutes: String(Math.round(minutes)),
      ...(clock === undefined ? {} : { clock: clock.at(minutes) }),
      text,
      strong: strong === true,
    }));
}

function factsOf(plan: Plan, units: UnitSystem): CardFact[] {
  const { roast, loss, history } = plan;
  const twine = twineFor(roast.profile);
  const resting = history.stages.find(({ stage }) => stage.kind === 'rest');
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
      text: `cold within 2 h, eat within 3 to 4 days, reheat to ${temperatureText(73.9, units)}`,
    },
  ];
}
