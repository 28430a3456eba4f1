/** The worker's side of newest-answer.ts: answers each question off the page's own thread. */

export type Reply<Answer> = { answer: Answer } | { failure: string };

/** The answer, or the sentence of why there is none. */
export function replyTo<Question, Answer>(
  question: Question,
  compute: (question: Question) => Answer,
): Reply<Answer> {
  try {
    return { answer: compute(question) };
  } catch (error) {
    return { failure: error instanceof Error ? error.message : String(error) };
  }
}

export function answerWith<Question, Answer>(compute: (question: Question) => Answer) {
  addEventListener("message", ({ data }: MessageEvent<Question>) => postMessage(replyTo(data, compute)));
}
