import { isHeat, type Plan, temperatureText, twineFor } from '@roastsim/core';
import { ranged } from '../ask/forecasting.js';
import { planFor } from '../ask/planning.js';
import type { Order } from '../read/orders.js';
import { readPlanOptions } from '../read/planOptions.js';
import { priorChanges } from '../read/settings.js';
import { buildCard } from '../show/card/buildCard.js';
import type { CardModel, Paper } from '../show/card/cardModel.js';
import { printFitting } from '../show/card/fitting.js';
import { clockText } from '../show/clock.js';
import type { RoastLine } from '../show/daySheet.js';
import type { Format, Shift } from './job.js';

type Printer = (card: CardModel, created: Date) => Promise<Uint8Array | string>;

/** Each printer is loaded when it is needed. */
const PRINTERS: Readonly<Record<Format, () => Promise<Printer>>> = {
  pdf: async () => (await import('../show/card/pdf.js')).cardPdf,
  html: async () => {
    const { cardHtml } = await import('../show/card/html.js');
    return async (card) => cardHtml(card);
  },
  png: async () => (await import('../show/card/png.js')).cardPng,
};

/** A card, and what the day sheet says of it. */
export interface MadeCard {
  readonly content: Uint8Array | string;
  /** What it is set for. */
  readonly paper: Paper;
  readonly line: RoastLine;
}

/**
 * Plans one order and prints its card.
 *
 * @throws RoastError when the plan cannot be made or the card has no room for a text
 */
export async function makeCard(
  { words, name, pickUp, note }: Order,
  { settings, format, created }: Shift,
): Promise<MadeCard> {
  const read = readPlanOptions(words);
  const order = {
    words,
    order: read,
    ...(name === undefined ? {} : { forWhom: name }),
    ...(pickUp === undefined ? {} : { pickUp }),
    ...(note === undefined ? {} : { note }),
  };
  const planned = await ranged(await planFor(words, read), read, priorChanges(settings));
  const { plan } = planned;
  const card = await buildCard(order, planned, settings);
  const print = await PRINTERS[format]();
  const fitted = await printFitting(card, settings.paper, (model) => print(model, created));
  return { ...fitted, line: lineOf(plan, card, read.serveMinutes) };
}

function lineOf(plan: Plan, card: CardModel, serveMinutes: number | undefined): RoastLine {
  const { roast, pull } = plan;
  return {
    units: card.units,
    weightKg: roast.massKg,
    cut: roast.cut,
    ties: roast.tied ? twineFor(roast.profile).atMm.length : 0,
    oven: ovenText(plan, card),
    minutes: Math.round(pull.minutes),
    pull: temperatureText(pull.centreC, card.units),
    wanted: card.wanted,
    ...(serveMinutes === undefined ? {} : { serve: clockText(serveMinutes) }),
  };
}

/** The heat the roast is pulled from, in a few words. */
function ovenText({ history }: Plan, { units }: CardModel): string {
  const stage = history.stages.map((record) => record.stage).findLast(isHeat);
  if (stage === undefined) return '';
  if (stage.kind === 'bath') return `bath ${temperatureText(stage.bathC, units)}`;
  return [
    temperatureText(stage.ovenC, units),
    ...(stage.fan ? ['fan'] : []),
    ...(stage.start === 'cold' ? ['from cold'] : []),
  ].join(', ');
}
