import { ComponentType } from 'discord-api-types/v10';
import type { WireComponent } from '../wire.ts';
import type { Resolved } from './resolved.ts';
import { WrongAsk } from './wrongAsk.ts';

/** The values that choosing these entries, named by label, value or name, sends to the bot. */
export function selectValues(select: WireComponent, wanted: string[], resolved: Resolved): string[] {
  const least = select.min_values ?? 1;
  const most = select.max_values ?? 1;
  if (wanted.length < least || wanted.length > most)
    throw new WrongAsk(
      `"${select.placeholder ?? select.custom_id}" takes ${least} to ${most} choices, not ${wanted.length}`,
    );
  return wanted.map((text) => selectValue(select, text, resolved));
}

function selectValue(select: WireComponent, text: string, resolved: Resolved): string {
  switch (select.type) {
    case ComponentType.UserSelect:
      return resolved.user(text);
    case ComponentType.ChannelSelect:
      return resolved.channel(text);
    case ComponentType.RoleSelect:
      return resolved.role(text);
    case ComponentType.MentionableSelect:
      return resolved.mentionable(text);
    default: {
      const options = select.options ?? [];
      const option = options.find((entry) => entry.value === text) ?? options.find((entry) => entry.label === text);
      if (option === undefined)
        throw new WrongAsk(`"${text}" is not among: ${options.map((entry) => entry.label).join(', ')}`);
      return option.value;
    }
  }
}
