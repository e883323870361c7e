import { planCook, planForGuests, seatAtPlan, settleWishes } from '@roastsim/core';
import type { PlanOrder, TableOrder } from '../read/planOptions.js';
import type { Planned } from './planned.js';

/** Plans for guests, or seats them at the plan that was asked for. */
export function planTable({ roast, request }: PlanOrder, table: TableOrder): Planned {
  const { wishes, atGuests, vary, withinMinutes, otherFold, leftoversKg } = table;
  const kept = leftoversKg === undefined ? {} : { leftoversKg: wishes.length * leftoversKg };
  if (!atGuests) {
    const plan = planCook(roast, request);
    return {
      plan,
      table: {
        wishes: settleWishes(wishes, plan.aim.scale),
        seating: seatAtPlan(plan, wishes),
        slicePeakC: plan.slices.map(({ peakCentreC }) => peakCentreC),
        ...kept,
      },
    };
  }
  const search = planForGuests(roast, {
    ...request,
    wishes,
    vary,
    ...(withinMinutes === undefined ? {} : { withinMinutes }),
    ...(otherFold === undefined ? {} : { otherFold }),
  });
  const { plan, best } = search;
  return {
    plan,
    table: {
      wishes: search.wishes,
      seating: best.seating,
      slicePeakC: best.slicePeakC,
      search,
      ...kept,
    },
  };
}
