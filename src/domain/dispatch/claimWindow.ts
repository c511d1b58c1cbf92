import { hourMs, type Instant, plusMs } from '../day.ts';

/** The moment up to which dead animals may be reported: `claimHours` after the carrier delivered. */
export const claimEndsAt = (deliveredAt: Instant, claimHours: number): Instant =>
  plusMs(deliveredAt, Math.round(claimHours * hourMs));
