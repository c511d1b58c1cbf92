import type { Partner } from '../business.ts';
import { addDays, type LocalDay } from '../day.ts';
import { type Absence, allAway, awayOnOneOf } from '../rota/absence.ts';
import { isAway } from '../rota/shares.ts';
import type { DispatchReason } from './reason.ts';

/** The people who answer a claim, and how long one may come. */
export interface ClaimQuestion {
  readonly day: LocalDay;
  /** Days that a parcel travels, and days that it may be late. */
  readonly transitDays: number;
  readonly slackDays: number;
  /** Hours after delivery in which a claim may come. */
  readonly claimHours: number;
  readonly partners: readonly Pick<Partner, 'name' | 'awayFrom' | 'awayTo'>[];
}

/** The days from a parcel's earliest delivery to the last on which a claim may come. */
export function claimDaysOf({ day, transitDays, slackDays, claimHours }: Omit<ClaimQuestion, 'partners'>): LocalDay[] {
  const days = slackDays + Math.ceil(claimHours / 24) + 1;
  return Array.from({ length: days }, (_, index) => addDays(day, transitDays + index));
}

/**
 * What speaks against a dispatch day because people are away: no where on that day, or on one on which a claim may come, nobody is there;
 * ask where a partner is away while a claim may come, as the other then answers alone. Our rule.
 */
export function absenceReasons(question: ClaimQuestion): DispatchReason[] {
  const { day, partners } = question;
  const claimDays = claimDaysOf(question);
  const nobody = allAway(partners);
  if (nobody !== null && [day, ...claimDays].some((on) => isWithin(nobody, on))) {
    return [{ kind: 'nobody-there', absence: nobody }];
  }
  return awayOnOneOf(partners, claimDays).map(({ name, awayFrom, awayTo }) => ({
    kind: 'partner-away' as const,
    name,
    absence: { from: awayFrom, to: awayTo },
  }));
}

const isWithin = ({ from, to }: Absence, day: LocalDay): boolean => isAway({ awayFrom: from, awayTo: to }, day);
