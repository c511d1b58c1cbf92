import type { ProtocolClock } from '../clock.ts';
import type { WireChoice, WireModal } from '../wire.ts';

/** A bot must acknowledge within this time. */
export const ACKNOWLEDGE_MS = 3000;
/** Afterwards it may edit and follow up for this long. */
export const TOKEN_MS = 15 * 60_000;

export interface InteractionAnswer {
  /** The kind of callback, numbered as on the wire. */
  type: number;
  isEphemeral: boolean;
  modal?: WireModal;
  choices?: WireChoice[];
}

export interface Interaction {
  id: string;
  token: string;
  type: number;
  userId: string;
  channelId: string;
  createdAtMs: number;
  commandName?: string;
  sourceMessageId?: string;
  /** The type of the option being completed. */
  focusedType?: number;
  stage: 'waiting' | 'answered' | 'lapsed';
  answer?: InteractionAnswer;
  /** The message that `@original` stands for. */
  originalId?: string;
  followUpIds: string[];
  /** How often `@original` was edited after the acknowledgement. */
  edits: number;
  /** Why it lapsed, in words. */
  failure?: string;
}

export type NewInteraction = Pick<Interaction, 'id' | 'token' | 'type' | 'userId' | 'channelId'> &
  Partial<Pick<Interaction, 'commandName' | 'sourceMessageId' | 'focusedType'>>;

/** The interactions of this run: each waits for its acknowledgement, is answered, or lapses. */
export class InteractionRegistry {
  readonly #clock: ProtocolClock;
  readonly #byId = new Map<string, Interaction>();
  readonly #byToken = new Map<string, Interaction>();
  readonly #stopLapse = new Map<string, () => void>();
  readonly #listeners = new Set<() => void>();

  constructor(clock: ProtocolClock) {
    this.#clock = clock;
  }

  open(wanted: NewInteraction): Interaction {
    const interaction: Interaction = {
      ...wanted,
      createdAtMs: this.#clock.nowMs(),
      stage: 'waiting',
      followUpIds: [],
      edits: 0,
    };
    this.#byId.set(interaction.id, interaction);
    this.#byToken.set(interaction.token, interaction);
    const lapse = () => this.lapse(interaction, 'the bot did not answer within 3 seconds');
    this.#stopLapse.set(interaction.id, this.#clock.after(ACKNOWLEDGE_MS, lapse));
    return interaction;
  }

  lapse(interaction: Interaction, failure: string): void {
    if (interaction.stage !== 'waiting') return;
    interaction.stage = 'lapsed';
    interaction.failure = failure;
    this.changed();
  }

  acknowledge(interaction: Interaction, answer: InteractionAnswer, originalId: string | undefined): void {
    this.#stopLapse.get(interaction.id)?.();
    this.#stopLapse.delete(interaction.id);
    interaction.stage = 'answered';
    interaction.answer = answer;
    if (originalId !== undefined) interaction.originalId = originalId;
    this.changed();
  }

  get(id: string): Interaction | undefined {
    return this.#byId.get(id);
  }

  withToken(token: string): Interaction | undefined {
    return this.#byToken.get(token);
  }

  isExpired(interaction: Interaction): boolean {
    return this.#clock.nowMs() > interaction.createdAtMs + TOKEN_MS;
  }

  /** Tells the waiting ones that something about an interaction is new. */
  changed(): void {
    for (const listener of [...this.#listeners]) listener();
  }

  /** Resolves as soon as `isThere` holds, or after `limitMs` of the machine's time. */
  async until(isThere: () => boolean, limitMs: number): Promise<void> {
    if (isThere()) return;
    await new Promise<void>((resolve) => {
      const stop = () => {
        clearTimeout(timer);
        this.#listeners.delete(look);
        resolve();
      };
      const look = () => {
        if (isThere()) stop();
      };
      const timer = setTimeout(stop, limitMs);
      timer.unref();
      this.#listeners.add(look);
    });
  }
}
