import type { UnitSystem } from '@roastsim/core';
import type { Drawing } from './drawing.js';

/** A picture made of pixels. */
export interface Picture {
  readonly png: Uint8Array;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly alt: string;
}

/** One form of a chart, with as many words as it can have at its width. */
export interface ChartPicture extends Picture {
  /** Width of print from which on none of its words is below {@link SMALLEST_PT}. */
  readonly leastWidthPt: number;
}

/** Paper a card is printed on, in portrait. */
export const PAPERS = {
  a5: { widthMm: 148, heightMm: 210 },
  a4: { widthMm: 210, heightMm: 297 },
  letter: { widthMm: 215.9, heightMm: 279.4 },
} as const;

/** Name of a paper size. */
export type Paper = keyof typeof PAPERS;

/** One of the numbers a card is read for. */
export interface KeyNumber {
  /** `Oven`, `Time`, `Pull at`. */
  readonly label: string;
  /** `230 °C`. */
  readonly value: string;
  /** `hot before it goes in, no fan`. */
  readonly detail: string;
}

/** One step of the timetable. */
export interface CardStep {
  /** Minutes since the refrigerator, `67`. */
  readonly minutes: string;
  /** `18:10`, when the serving time is known. */
  readonly clock?: string;
  readonly text: string;
  /** The pull. */
  readonly strong: boolean;
}

/** A short matter of fact: salt, twine, rest, leftovers. */
export interface CardFact {
  readonly label: string;
  readonly text: string;
}

/** A guest and the slice that comes nearest to the wish. */
export interface CardGuest {
  /** When it is known; guests without one share an entry. */
  readonly name?: string;
  /** Band asked for: `rare`. */
  readonly wish: string;
  /** Number of the slice, the one at the thick end being 1. */
  readonly slice: number;
  /** Band of that slice: `medium-rare`. */
  readonly band: string;
  /** Peak of its middle [°C]. */
  readonly peakC: number;
}

/** The shop that hands the card out. */
export interface CardShop {
  readonly name: string;
  readonly address: readonly string[];
  readonly footer?: string;
  readonly logo?: Picture;
}

/** A cook card as data: everything that is printed, in words and geometry, nothing about where it stands. */
export interface CardModel {
  readonly paper: Paper;
  /** Language of the texts, for hyphenation and screen readers: a BCP 47 tag. */
  readonly language: string;
  readonly units: UnitSystem;
  readonly shop?: CardShop;
  readonly forWhom?: string;
  /** `Thursday 24 December 2026`. */
  readonly pickUp?: string;
  /** `Serve at 18:30`. */
  readonly serve?: string;
  readonly note?: string;
  /** `Whole tenderloin, 2.20 kg, tail folded, tied`. */
  readonly title: string;
  /** `medium-rare: 56 °C in the middle`. */
  readonly wanted: string;
  readonly keys: readonly [KeyNumber, KeyNumber, KeyNumber];
  readonly steps: readonly CardStep[];
  /** Side view with ties, slices and their bands, to scale. */
  readonly roast: Drawing;
  /** Cross-section of the aimed-at slice with its rings. */
  readonly section: Drawing;
  /** What it is: `Slice 5, cut across`. */
  readonly sectionTitle: string;
  /** Letter of each band used and what it stands for: `MR medium-rare`. */
  readonly legend: readonly string[];
  /** Temperatures over time: forms of one chart, the widest first. */
  readonly charts: readonly ChartPicture[];
  readonly facts: readonly CardFact[];
  /** One entry a guest, in any order; none when nobody said who eats. */
  readonly guests: readonly CardGuest[];
  /** Warnings of this plan; they must never be left out. */
  readonly notices: readonly string[];
  /** The usual cautions. */
  readonly cautions: readonly string[];
}

/** Smallest print on a card [pt]. */
export const SMALLEST_PT = 8;
