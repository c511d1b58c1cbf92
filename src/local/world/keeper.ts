import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import * as z from 'zod';
import type { World, WorldSeed } from './world.ts';

const SAVE_AFTER_MS = 200;

const savedForm = z.object({
  form: z.literal(1),
  users: z.array(z.looseObject({ id: z.string(), name: z.string() })).min(1),
  channels: z.array(z.looseObject({ id: z.string(), name: z.string() })).min(1),
  messages: z.array(z.looseObject({ id: z.string(), channelId: z.string() })),
  commands: z.array(z.looseObject({ id: z.string(), name: z.string() })),
});

export interface SavedState {
  seed: WorldSeed;
  files: Map<string, Uint8Array>;
}

/** What an earlier run left; undefined when there is nothing yet. @throws Error when the file is not of this program */
export function readState(file: string): SavedState | undefined {
  if (!existsSync(file)) return undefined;
  const saved = savedForm.parse(JSON.parse(readFileSync(file, 'utf8')));
  const folder = fileFolder(file);
  const names = existsSync(folder) ? readdirSync(folder) : [];
  return {
    seed: saved as unknown as WorldSeed,
    files: new Map(names.map((name) => [name, new Uint8Array(readFileSync(join(folder, name)))])),
  };
}

/** Writes the state a moment after every change, and at the end; each write replaces the file in one step. */
export function keepOnDisk(world: World, file: string): { close(): void } {
  mkdirSync(dirname(file), { recursive: true });
  mkdirSync(fileFolder(file), { recursive: true });
  let timer: NodeJS.Timeout | undefined;
  const save = () => {
    timer = undefined;
    saveFiles(world, fileFolder(file));
    const { users, channels, messages, commands } = world;
    writeAtOnce(file, JSON.stringify({ form: 1, users, channels, messages, commands }));
  };
  const stopListening = world.bus.listen((happening) => {
    if (happening.kind === 'botPresence' || happening.kind === 'typing') return;
    timer ??= setTimeout(save, SAVE_AFTER_MS);
  });
  return {
    close() {
      stopListening();
      clearTimeout(timer);
      save();
    },
  };
}

function fileFolder(file: string): string {
  return `${file}.files`;
}

/** Files of messages are kept; what was handed to a command or a form serves for that alone. */
function saveFiles(world: World, folder: string): void {
  const before = new Set(readdirSync(folder));
  const kept = new Set(world.messages.flatMap((message) => message.files.map((file) => file.id)));
  for (const id of kept) {
    const bytes = world.fileBytes.get(id);
    if (bytes !== undefined && !before.has(id)) writeAtOnce(join(folder, id), bytes);
  }
  for (const name of before) if (!kept.has(name)) rmSync(join(folder, name), { force: true });
}

function writeAtOnce(file: string, content: string | Uint8Array): void {
  writeFileSync(`${file}.new`, content);
  renameSync(`${file}.new`, file);
}
