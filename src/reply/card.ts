import type { ChartData } from '../domain/index.ts';
import type { Press } from './acts.ts';

/** What the bot says, as plain data. See docs/replies.md for the form: answer first, why, next, controls. */
export interface Card {
  /** The answer, one line, at most about 45 characters. */
  readonly title: string;
  /** Why, a thought a line. */
  readonly why?: readonly string[];
  /** Rows of a table in fixed width, at most 38 characters each. */
  readonly table?: readonly string[];
  /** One line that starts with a verb. */
  readonly next?: string;
  /** At most two rows of controls. */
  readonly controls?: readonly ControlRow[];
  /** Ways to have the refused entry written after all; each becomes a button that runs the same command with the patch. */
  readonly offers?: readonly Offer[];
  /** The one person that a scheduled post concerns; nobody else is pinged. */
  readonly mention?: readonly string[];
  /** Texts for the person to copy or keep, sent as files, as many messages as they need. */
  readonly files?: readonly { readonly name: string; readonly text: string }[];
  /** Values to draw; the picture stands under the words, which must do without it. */
  readonly chart?: ChartData;
}

export type ControlRow = readonly Button[] | readonly [Select];

export interface Button {
  readonly kind: 'button';
  /** Named by what it does ("Changed 7.5 L"), at most 34 characters. */
  readonly label: string;
  readonly press: Press;
  readonly tone?: 'main' | 'plain' | 'danger';
}

export interface Select {
  readonly kind: 'select';
  readonly placeholder: string;
  readonly press: Press;
  /** 1 to 25. */
  readonly options: readonly { readonly label: string; readonly value: string; readonly description?: string }[];
  /** How many may be chosen at once; default 1. */
  readonly max?: number;
}

export interface Offer {
  readonly label: string;
  /** Another command to run instead, by its path; it gets the patch alone. */
  readonly path?: string;
  /** A name that was meant instead of what was typed: it takes the place of the option that said `typed`. */
  readonly instead?: { readonly typed: string; readonly name: string };
  /** What the same command gets instead or besides. */
  readonly patch: Readonly<Record<string, string | number | boolean | null>>;
  readonly tone?: 'main' | 'plain' | 'danger';
}

/** A form to fill in; sent back under its press with a text per field. */
export interface Form {
  readonly title: string;
  readonly press: Press;
  /** 1 to 5. */
  readonly fields: readonly FormField[];
}

export interface FormField {
  readonly id: string;
  readonly label: string;
  readonly hint?: string;
  readonly lines: 'one' | 'many';
  readonly value?: string;
  readonly required?: boolean;
}

export const button = (label: string, pressed: Press, tone: 'main' | 'plain' | 'danger' = 'plain'): Button => ({
  kind: 'button',
  label,
  press: pressed,
  tone,
});
