import { ApplicationCommandOptionType } from 'discord-api-types/v10';
import { FormErrors } from '../http/refusal.ts';
import type { WireChoice } from '../wire.ts';

/** A choice offered as a string carries at most this many characters. */
const CHOICE_VALUE_CHARACTERS = 100;

/** The documented rules for offered choices that the published schemas lack. @throws ApiRefusal 50035 */
export function checkChoices(choices: readonly WireChoice[], optionType: number): void {
  const errors = new FormErrors();
  choices.forEach((choice, index) => {
    const path = ['data', 'choices', index, 'value'];
    if (optionType === ApplicationCommandOptionType.String) {
      if (typeof choice.value !== 'string')
        errors.add(path, 'STRING_TYPE_CONVERT', 'Could not interpret the value as string.');
      else if (choice.value.length < 1 || choice.value.length > CHOICE_VALUE_CHARACTERS)
        errors.add(path, 'BASE_TYPE_BAD_LENGTH', `Must be between 1 and ${CHOICE_VALUE_CHARACTERS} in length.`);
    } else if (typeof choice.value !== 'number') {
      errors.add(path, 'NUMBER_TYPE_COERCE', 'Value is not a number.');
    } else if (optionType === ApplicationCommandOptionType.Integer && !Number.isInteger(choice.value)) {
      errors.add(path, 'NUMBER_TYPE_COERCE', 'Value is not an int.');
    }
  });
  errors.refuseIfAny();
}
