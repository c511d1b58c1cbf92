import {
  ApplicationCommandCreateRequestSchema,
  ApplicationCommandPatchRequestPartialSchema,
  ApplicationCommandUpdateRequestSchema,
} from 'discord-api-spec/zod';
import { ApplicationCommandType } from 'discord-api-types/v10';
import { type Call, created, noContent, ok, param } from '../http/call.ts';
import { FormErrors, refusals } from '../http/refusal.ts';
import type { Router } from '../http/router.ts';
import { FIXED_IDS } from '../ids.ts';
import { checkCommand, checkCommandList, DAILY_CREATES, SLASH_COMMANDS } from '../limits/commandLimits.ts';
import { checkAgainstSpec } from '../limits/specCheck.ts';
import type { JsonObject, WireCommand, WireCommandOption } from '../wire.ts';
import type { StoredCommand } from '../world/records.ts';
import type { World } from '../world/world.ts';
import { checkApplication, checkGuild } from './messageLookup.ts';

const ALL = '/applications/{application}/guilds/{guild}/commands';
const ONE = `${ALL}/{command}`;

/** The commands that the bot registers for the guild. */
export function addCommandRoutes(router: Router, world: World): void {
  router.on('GET', ALL, (call) => {
    checkPlace(call);
    return ok(world.commands.map(wireCommand));
  });

  router.on('PUT', ALL, (call) => {
    checkPlace(call);
    const list = readList(call.body);
    const kept = list.map((command) => keep(world, command));
    world.commands = kept;
    world.bus.tell({ kind: 'commandsChanged' });
    return ok(kept.map(wireCommand));
  });

  router.on('POST', ALL, (call) => {
    checkPlace(call);
    const command = read(ApplicationCommandCreateRequestSchema, call.body);
    const isNew = sameCommand(world, command) === undefined;
    const ofKind = world.commands.filter((entry) => typeOf(entry) === typeOf(command));
    if (isNew && ofKind.length >= SLASH_COMMANDS) throw refusals.tooManyCommands();
    const made = keep(world, command);
    world.commands = [...world.commands.filter((entry) => entry.id !== made.id), made];
    world.bus.tell({ kind: 'commandsChanged' });
    return isNew ? created(wireCommand(made)) : ok(wireCommand(made));
  });

  router.on('GET', ONE, (call) => {
    checkPlace(call);
    return ok(wireCommand(find(world, call)));
  });

  router.on('PATCH', ONE, (call) => {
    checkPlace(call);
    const before = find(world, call);
    const change = checkAgainstSpec(
      ApplicationCommandPatchRequestPartialSchema,
      readable(call.body),
    ) as Partial<WireCommand>;
    const after: StoredCommand = { ...before, ...change, version: world.ids.next() };
    refuseWrong([after], []);
    world.commands = world.commands.map((entry) => (entry.id === before.id ? after : entry));
    world.bus.tell({ kind: 'commandsChanged' });
    return ok(wireCommand(after));
  });

  router.on('DELETE', ONE, (call) => {
    checkPlace(call);
    const gone = find(world, call);
    world.commands = world.commands.filter((entry) => entry !== gone);
    world.bus.tell({ kind: 'commandsChanged' });
    return noContent;
  });
}

function checkPlace(call: Call): void {
  checkApplication(param(call, 'application'));
  checkGuild(param(call, 'guild'));
}

function find(world: World, call: Call): StoredCommand {
  const command = world.commands.find((entry) => entry.id === param(call, 'command'));
  if (command === undefined) throw refusals.unknownCommand();
  return command;
}

function typeOf(command: WireCommand): number {
  return command.type ?? ApplicationCommandType.ChatInput;
}

function sameCommand(world: World, command: WireCommand): StoredCommand | undefined {
  return world.commands.find((entry) => entry.name === command.name && typeOf(entry) === typeOf(command));
}

function readList(body: unknown): WireCommand[] {
  const errors = new FormErrors();
  if (!Array.isArray(body)) {
    errors.add([], 'BASE_TYPE_BAD_TYPE', 'Only iterables may be used in a ListType');
    errors.refuseIfAny();
    return [];
  }
  const list = body.map((entry, index) => read(ApplicationCommandUpdateRequestSchema, entry, [index]));
  const slash = list.filter((command) => typeOf(command) === ApplicationCommandType.ChatInput);
  if (slash.length > SLASH_COMMANDS) throw refusals.tooManyCommands();
  checkCommandList(list, errors);
  errors.refuseIfAny();
  return list;
}

function read(schema: Parameters<typeof checkAgainstSpec>[0], body: unknown, under: number[] = []): WireCommand {
  const command = checkAgainstSpec(schema, readable(body), under) as WireCommand;
  refuseWrong([command], under);
  return command;
}

function refuseWrong(commands: WireCommand[], under: number[]): void {
  const errors = new FormErrors();
  for (const command of commands) checkCommand(command, under, errors);
  errors.refuseIfAny();
}

/** The service takes whole numbers as strings too, and clients send permissions so; the published schema does not say it. */
function readable(body: unknown): unknown {
  if (typeof body !== 'object' || body === null) return body ?? {};
  const permissions: unknown = Reflect.get(body, 'default_member_permissions');
  if (typeof permissions !== 'string' || !/^\d+$/.test(permissions)) return body;
  return { ...body, default_member_permissions: Number(permissions) };
}

/** Keeps a command: one of the same name and kind is replaced and keeps its id; a new one counts against the day's limit. */
function keep(world: World, command: WireCommand): StoredCommand {
  const before = sameCommand(world, command);
  if (before === undefined) countCreate(world);
  return { ...command, id: before?.id ?? world.ids.next(), version: world.ids.next() };
}

function countCreate(world: World): void {
  const day = new Date(world.clock.nowMs()).toISOString().slice(0, 10);
  if (world.creates.day !== day) world.creates = { day, count: 0 };
  if (world.creates.count >= DAILY_CREATES) throw refusals.tooManyCreatesToday();
  world.creates.count += 1;
}

/** A command as the service lists it: only what was set, defaults as it fills them in. */
export function wireCommand(command: StoredCommand): JsonObject {
  return {
    id: command.id,
    application_id: FIXED_IDS.application,
    guild_id: FIXED_IDS.guild,
    version: command.version,
    type: typeOf(command),
    name: command.name,
    name_localizations: null,
    description: command.description ?? '',
    description_localizations: null,
    default_member_permissions:
      command.default_member_permissions === undefined || command.default_member_permissions === null
        ? null
        : String(command.default_member_permissions),
    nsfw: command.nsfw ?? false,
    contexts: command.contexts ?? null,
    integration_types: command.integration_types ?? [0],
    ...(command.options && command.options.length > 0 ? { options: command.options.map(wireOption) } : {}),
  };
}

function wireOption(option: WireCommandOption): JsonObject {
  const { options, required, autocomplete, choices, ...rest } = option;
  const set = Object.entries(rest).filter(([, value]) => value !== null && value !== undefined);
  return {
    ...(Object.fromEntries(set) as JsonObject),
    ...(required ? { required } : {}),
    ...(autocomplete ? { autocomplete } : {}),
    ...(choices && choices.length > 0 ? { choices: choices.map((choice) => ({ ...choice })) } : {}),
    ...(options && options.length > 0 ? { options: options.map(wireOption) } : {}),
  };
}
