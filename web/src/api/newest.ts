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
