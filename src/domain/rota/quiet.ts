import type { WallTime } from '../day.ts';

/** Night, in which nobody's phone is to ring (our choice). */
const night = { from: '22:00' as WallTime, to: '07:00' as WallTime } as const;

/** Whether a post at this time of day comes without a sound: at night, which ends with the morning post where that is set earlier. */
export const isQuiet = (time: WallTime, morningAt: WallTime): boolean =>
  time >= night.from || time < (morningAt < night.to ? morningAt : night.to);
