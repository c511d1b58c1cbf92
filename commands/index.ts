import type { Command } from './command.ts';

/** Every slash command, in the order of the menu: used for registration and for dispatch. */
export const commands: readonly Command[] = [];
