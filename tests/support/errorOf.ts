import { RoastError } from '@roastsim/core';

/** The library's error that some work ends with; whatever else it throws is thrown on. */
export function errorOf(work: () => unknown): RoastError {
  try {
    work();
  } catch (error) {
    if (error instanceof RoastError) return error;
    throw error;
  }
  throw new Error('nothing was thrown');
}
