// Asking while a baker types: every change asks at once, an answer to an older question is dropped and its request
// stopped. No waiting for a pause: the picture follows the key.
import { is_abort } from "./ask";

export class Newest<Question, Answer> {
  private stop: AbortController | undefined;

  constructor(
    private readonly put_question: (question: Question, signal: AbortSignal) => Promise<Answer>,
    private readonly answered: (answer: Answer, question: Question) => void,
    private readonly failed: (error: unknown, question: Question) => void,
  ) {}

  ask(question: Question): void {
    this.stop?.abort();
    const stop = new AbortController();
    this.stop = stop;
    this.put_question(question, stop.signal)
      .then((answer) => {
        if (!stop.signal.aborted) this.answered(answer, question);
      })
      .catch((error: unknown) => {
        if (!stop.signal.aborted && !is_abort(error)) this.failed(error, question);
      });
  }

  end(): void {
    this.stop?.abort();
  }
}

// The same for questions that take the server a while: the one under way is let finish, then the newest is asked.
export class OneByOne<Question, Answer> {
  private next: Question | undefined;
  private busy = false;
  private over = false;

  constructor(
    private readonly put_question: (question: Question) => Promise<Answer>,
    private readonly answered: (answer: Answer, question: Question) => void,
    private readonly failed: (error: unknown, question: Question) => void,
  ) {}

  ask(question: Question): void {
    this.next = question;
    if (!this.busy) void this.work();
  }

  end(): void {
    this.over = true;
    this.next = undefined;
  }

  private async work(): Promise<void> {
    this.busy = true;
    while (this.next !== undefined) {
      const question = this.next;
      this.next = undefined;
      try {
        const answer = await this.put_question(question);
        if (!this.over) this.answered(answer, question);
      } catch (error) {
        if (!this.over) this.failed(error, question);
      }
    }
    this.busy = false;
  }
}
