import type { Card } from '../reply/index.ts';

/** A post that is to be published: its card, and the one person that it concerns. */
export interface Post {
  readonly card: Card;
  readonly mention?: readonly string[];
}

/** What goes along with a card that is published. */
interface SendOptions {
  readonly key: string;
  readonly mention?: readonly string[];
  /** Nobody's phone rings for it. */
  readonly quiet?: boolean;
}

/** How posts leave; what was sent without an answer is `unknown`, never failed. */
export interface Posting {
  publish(
    card: Card,
    options: SendOptions,
  ): Promise<
    { readonly outcome: 'sent'; readonly messageId: string } | { readonly outcome: 'unknown'; readonly cause: string }
  >;
  findPost(
    key: string,
  ): Promise<
    | { readonly outcome: 'found'; readonly messageId: string }
    | { readonly outcome: 'absent' }
    | { readonly outcome: 'unknown'; readonly cause: string }
  >;
  /** Makes a post say something else; nobody is called by that. */
  edit(
    messageId: string,
    card: Card,
    options: { readonly key: string },
  ): Promise<
    | { readonly outcome: 'edited' }
    | { readonly outcome: 'absent' }
    | { readonly outcome: 'unknown'; readonly cause: string }
  >;
}

export interface JobLog {
  info(facts: object, text: string): void;
  warn(facts: object, text: string): void;
  error(facts: object, text: string): void;
}
