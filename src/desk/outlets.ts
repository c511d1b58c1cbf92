import { type By, fail, firstImpossible, folded, type Outlet, ok, type Refusal, type Result } from '../domain/index.ts';
import { type Desk, log } from './desk.ts';
import { isName } from './setup.ts';

export interface OutletInput {
  readonly outlet: string;
  readonly percent?: number | undefined;
  readonly fixedMinor?: number | undefined;
  readonly onPostage?: boolean | undefined;
}

/** Adds a selling place, or changes the one of that name. A place with no fees said takes none. */
export function setOutlet(desk: Desk, by: By, input: OutletInput): Result<{ outlet: Outlet; added: boolean }, Refusal> {
  const name = input.outlet.trim();
  if (!isName(name)) return fail({ kind: 'bad-name', noun: 'outlet', typed: input.outlet });
  const refused = firstImpossible([['share', input.percent]]);
  if (refused !== null) return fail(refused);
  const old = desk.store.outlets.outlets().find((outlet) => folded(outlet.name) === folded(name));
  const wanted = {
    name: old?.name ?? name,
    percent: input.percent ?? old?.percent ?? 0,
    fixedMinor: input.fixedMinor ?? old?.fixedMinor ?? 0,
    onPostage: input.onPostage ?? old?.onPostage ?? false,
  };
  let id = old?.id ?? 0;
  log(desk, by, 'outlet', `${old === undefined ? 'added' : 'changed'} outlet ${wanted.name}`, (entryId) => {
    if (old === undefined) id = desk.store.outlets.addOutlet(entryId, wanted);
    else desk.store.outlets.editOutlet(entryId, { ...wanted, id });
  });
  return ok({ outlet: { ...wanted, id }, added: old === undefined });
}

export const outletsOf = (desk: Desk): Outlet[] => desk.store.outlets.outlets();
