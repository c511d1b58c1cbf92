/** Something asked of the control interface that no person could do in a chat: a button that is not there, a missing option. */
export class WrongAsk extends Error {
  readonly status: number;

  constructor(message: string, status = 400) {
    super(message);
    this.status = status;
  }
}
