import {
  type Business,
  type By,
  fail,
  firstImpossible,
  folded,
  isTimeZone,
  type Line,
  type LocalDay,
  mostTubName,
  ok,
  type Partner,
  type Person,
  type Refusal,
  type Result,
} from '../domain/index.ts';
import { businessOf, type Desk, log, todayOf } from './desk.ts';
import { tubsInUse } from './find.ts';

export type BusinessPatch = { readonly [K in keyof Business]?: Business[K] | undefined };

/** The one thing still missing before the bot can do its work. */
export type SetupStep = 'partner' | 'line' | 'tub' | 'done';

export function setupStep(desk: Desk): SetupStep {
  if (desk.store.settings.partners().length === 0) return 'partner';
  if (desk.store.tubs.lines().length === 0) return 'line';
  return tubsInUse(desk).length === 0 ? 'tub' : 'done';
}

/** Sets what `patch` names; the business as it then stands. */
export function setBusiness(desk: Desk, by: By, patch: BusinessPatch): Result<Business, Refusal> {
  const given = Object.entries(patch).filter(([, value]) => value !== undefined);
  const refused = given.length === 0 ? null : impossibleIn(desk, Object.fromEntries(given));
  if (refused !== null) return fail(refused);
  if (given.length > 0) {
    log(desk, by, 'business', `set ${given.map(([name]) => name).join(', ')}`, (entryId) => {
      setInBusiness(desk, entryId, Object.fromEntries(given));
    });
  }
  return ok(businessOf(desk));
}

/** Writes settings, checked before, under an entry that may hold other facts too. */
export function setInBusiness(desk: Desk, entryId: number, patch: BusinessPatch): void {
  for (const [name, value] of Object.entries(patch)) desk.store.settings.set(entryId, name, value);
}

function impossibleIn(desk: Desk, patch: BusinessPatch): Refusal | null {
  if (patch.zone !== undefined && !isTimeZone(patch.zone)) {
    return { kind: 'bad-words', what: 'time zone', typed: patch.zone, example: likelyZone(patch.zone) };
  }
  if (typeof patch.region === 'string' && !desk.isRegion(patch.region)) {
    return { kind: 'bad-words', what: 'region', typed: patch.region, example: 'NL, GB-ENG or US-OR' };
  }
  if (patch.currency !== undefined && !isCurrency(patch.currency)) {
    return { kind: 'bad-words', what: 'currency', typed: patch.currency, example: 'EUR' };
  }
  const merged = { ...businessOf(desk), ...patch };
  const amounts = firstImpossible([
    ['source-nitrate', patch.sourceNitrateMgL],
    ['source-tds', patch.sourceTdsMgL],
    ['source-gh', patch.sourceGhDgh],
    ['source-kh', patch.sourceKhDkh],
    ['target-gh', patch.targetGhDgh],
    ['target-kh', patch.targetKhDkh],
    ['target-tds', patch.targetTdsMgL],
    ['target-nitrate', patch.targetNitrateMgL],
    ['salt-gh', patch.saltGhDgh],
    ['salt-kh', patch.saltKhDkh],
    ['bucket', patch.bucketLitres],
    ['jug', patch.jugLitres],
    ['altitude', patch.altitudeM],
    ['nitrate-limit', patch.nitrateLimitMgL],
    ['percent', patch.changeMinPercent],
    ['percent', patch.changeMaxPercent],
    ['interval', patch.changeIntervalDays],
    ['transit-days', patch.transitDays],
    ['slack-days', patch.slackDays],
    ['low', patch.minTempC],
    ['high', patch.maxTempC],
    ['keep-days', patch.keepDays],
    ['claim-hours', patch.claimHours],
    ['full-order-level', patch.fullOrderLevelPercent],
  ]);
  if (amounts !== null) return amounts;
  const { changeMinPercent, changeMaxPercent, minTempC, maxTempC } = merged as Business;
  if (changeMinPercent > changeMaxPercent) {
    return {
      kind: 'impossible-amount',
      amount: 'percent',
      typed: changeMinPercent,
      min: 1,
      max: changeMaxPercent,
      whole: false,
    };
  }
  if (minTempC >= maxTempC) {
    return { kind: 'impossible-amount', amount: 'low', typed: minTempC, min: -50, max: maxTempC - 1, whole: false };
  }
  return null;
}

/** The zone of a city that was typed for it ("amsterdam"), else any zone as an example. */
const likelyZone = (typed: string): string =>
  Intl.supportedValuesOf('timeZone').find(
    (zone) => folded((zone.split('/').at(-1) ?? '').replaceAll('_', ' ')) === folded(typed),
  ) ?? 'Europe/Lisbon';

/** Whether the text is an ISO 4217 code that this machine knows. */
const isCurrency = (code: string): boolean => Intl.supportedValuesOf('currency').includes(code);

export interface LineInput {
  readonly line: string;
  readonly priceMinor?: number | undefined;
  readonly saleableMm?: number | undefined;
  readonly holdBack?: number | undefined;
}

/** Adds a line, or changes the one of that name. Saleable size 15 mm and 10 breeders a tub are common practice, no source. */
export function setLine(desk: Desk, by: By, input: LineInput): Result<{ line: Line; added: boolean }, Refusal> {
  const name = input.line.trim();
  if (!isName(name)) return fail({ kind: 'bad-name', noun: 'line', typed: input.line });
  const refused = firstImpossible([
    ['saleable-mm', input.saleableMm],
    ['hold-back', input.holdBack],
  ]);
  if (refused !== null) return fail(refused);
  const old = desk.store.tubs.lines().find((line) => folded(line.name) === folded(name));
  const wanted = {
    name: old?.name ?? name,
    priceMinor: input.priceMinor ?? old?.priceMinor ?? null,
    saleableMm: input.saleableMm ?? old?.saleableMm ?? 15,
    holdBack: input.holdBack ?? old?.holdBack ?? 10,
  };
  let id = old?.id ?? 0;
  log(desk, by, 'line', `${old === undefined ? 'added' : 'changed'} line ${wanted.name}`, (entryId) => {
    if (old === undefined) id = desk.store.tubs.addLine(entryId, wanted);
    else desk.store.tubs.editLine(entryId, { ...wanted, id });
  });
  return ok({ line: { ...wanted, id }, added: old === undefined });
}

/** A rack's name also travels in the controls of its sheet: letters beyond ASCII take more room there. */
export const isRackName = (text: string): boolean => isName(text) && encodeURIComponent(text).length <= 88;

/** A tub's name is shorter than others: it stands in first lines. */
export const isTubName = (text: string): boolean => isName(text) && text.length <= mostTubName;

/** Names are 1 to 30 characters with at least one letter or digit, on one line. */
export const isName = (text: string): boolean => /^[^\n\r]{1,30}$/.test(text) && /[\p{L}\p{N}]/u.test(text);

export interface PartnerInput {
  readonly partner: Person & { readonly bot: boolean };
  readonly sharePercent?: number | undefined;
  readonly never?: readonly string[] | undefined;
  readonly awayFrom?: LocalDay | null | undefined;
  readonly awayTo?: LocalDay | null | undefined;
  readonly owner?: boolean | undefined;
}

/** Adds a partner or changes one. The first is the owner unless it is said otherwise. */
export function setPartner(
  desk: Desk,
  by: By,
  input: PartnerInput,
): Result<{ partner: Partner; added: boolean }, Refusal> {
  const { partner: person } = input;
  if (person.bot) return fail({ kind: 'not-a-person', name: person.name });
  const refused = firstImpossible([['share', input.sharePercent]]);
  if (refused !== null) return fail(refused);
  const partners = desk.store.settings.partners();
  const old = partners.find(({ userId }) => userId === person.userId);
  const owners = partners.filter(({ owner }) => owner);
  if (input.owner === false && old?.owner === true && owners.length === 1) {
    return fail({ kind: 'last-owner', name: old.name });
  }
  const wanted: Partner = {
    userId: person.userId,
    name: person.name,
    sharePercent: input.sharePercent ?? old?.sharePercent ?? null,
    never: input.never ?? old?.never ?? [],
    ...awayOf(desk, input, old),
    owner: input.owner ?? old?.owner ?? partners.length === 0,
  };
  if (wanted.awayFrom !== null && wanted.awayTo !== null && wanted.awayTo < wanted.awayFrom) {
    return fail({ kind: 'bad-words', what: 'day', typed: wanted.awayTo, example: `${wanted.awayFrom} or later` });
  }
  log(desk, by, 'partner', `${old === undefined ? 'added' : 'changed'} partner ${wanted.name}`, (entryId) => {
    desk.store.settings.setPartner(entryId, wanted, false);
  });
  return ok({ partner: wanted, added: old === undefined });
}

/** The days away as they will stand: an end alone begins today, no beginning means not away. */
function awayOf(
  desk: Desk,
  input: PartnerInput,
  old: Partner | undefined,
): { awayFrom: LocalDay | null; awayTo: LocalDay | null } {
  const awayTo = input.awayTo === undefined ? (old?.awayTo ?? null) : input.awayTo;
  const awayFrom = input.awayFrom === undefined ? (old?.awayFrom ?? null) : input.awayFrom;
  if (input.awayFrom === null) return { awayFrom: null, awayTo: null };
  return { awayFrom: awayFrom === null && awayTo !== null ? todayOf(desk) : awayFrom, awayTo };
}

/** A partner leaves; the only owner only when nobody else is there. */
export function removePartner(desk: Desk, by: By, person: Person): Result<Partner, Refusal> {
  const partners = desk.store.settings.partners();
  const old = partners.find(({ userId }) => userId === person.userId);
  if (old === undefined) return fail({ kind: 'unknown', noun: 'partner', typed: person.name, near: [] });
  const others = partners.filter(({ userId }) => userId !== old.userId);
  if (old.owner && others.length > 0 && !others.some(({ owner }) => owner)) {
    return fail({ kind: 'last-owner', name: old.name });
  }
  log(desk, by, 'partner', `removed partner ${old.name}`, (entryId) => {
    desk.store.settings.setPartner(entryId, old, true);
  });
  return ok(old);
}

export const partnersOf = (desk: Desk): Partner[] => desk.store.settings.partners();
