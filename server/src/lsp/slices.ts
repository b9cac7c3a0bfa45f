import { type CancellationToken, LSPErrorCodes, ResponseError } from 'vscode-languageserver';
import type { Guard } from './guard.ts';
import { afterMessages } from './turn.ts';

/** How long work goes on before messages that have come are taken up, ms. */
const SLICE = 4;

/** Lets messages that have come be taken up. */
export function nextTurn(): Promise<void> {
  return new Promise(afterMessages);
}

/**
 * Answers a request whose work takes more than a few ms: after each step of it that has filled a slice, other messages get their turn.
 * @param current what the answer is made from: where that is another thing after a turn, the editor is told that it may ask again
 */
export async function answerInSlices<T>(
  guard: Guard,
  what: string,
  token: CancellationToken,
  current: () => unknown,
  work: () => Generator<void, T>,
): Promise<T | ResponseError> {
  let from: unknown;
  let steps: Generator<void, T> | undefined;
  for (;;) {
    const began = performance.now();
    const answer = guard.answer(what, token, (): { readonly value: T } | ResponseError | undefined => {
      if (!steps) {
        from = current();
        steps = work();
      } else if (current() !== from) return new ResponseError(LSPErrorCodes.ContentModified, 'the text has changed');
      do {
        const step = steps.next();
        if (step.done === true) return { value: step.value };
      } while (performance.now() - began < SLICE);
      return undefined;
    });
    if (answer instanceof ResponseError) return answer;
    if (answer) return answer.value;
    await nextTurn();
  }
}
