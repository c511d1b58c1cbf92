import {
  type ChangePlan,
  type ChangeQuestion,
  day,
  defaultBusiness,
  estimateFrom,
  type NitrateEstimate,
  planChange,
} from '../../src/domain/index.ts';

/** What is known of a tub that is known exactly. */
export const knownNitrate = (nowMgL: number, risePerDay: number): NitrateEstimate =>
  estimateFrom([{ nowMgL, risePerDay, weight: 1 }], 9);

/** A tub that was never read. */
export const unknownNitrate: NitrateEstimate = estimateFrom([{ nowMgL: 10, risePerDay: 0.3, weight: 1 }], 0);

const asked: ChangeQuestion = {
  netLitres: 20,
  policy: defaultBusiness,
  estimate: unknownNitrate,
  today: day('2027-04-13'),
  lastChangedOn: null,
  firstDueOn: day('2027-04-13'),
  readOn: null,
  harmOn: null,
  water: { tempC: null, tdsMgL: null, ghDgh: null },
  source: { tempC: null, tdsMgL: null, ghDgh: null },
};

/** The plan of a tub of 20 L net on 13 April 2027 with the default policy, as far as nothing else is said. */
export const planned = (more: Partial<ChangeQuestion> = {}): ChangePlan => planChange({ ...asked, ...more });

/** The same for a tub at such a nitrate (null: never read), its change due on such a day. */
export const plannedAt = (nitrateMgL: number | null, dueOn: string, more: Partial<ChangeQuestion> = {}): ChangePlan =>
  planned({
    estimate: nitrateMgL === null ? unknownNitrate : knownNitrate(nitrateMgL, 0.1),
    firstDueOn: day(dueOn),
    ...more,
  });
