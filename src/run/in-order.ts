/**
 * Sends each request, up to `ahead` at once, and yields the answers in the order of the requests,
 * however they come. The first that fails ends it.
 */
export async function* inOrder<Request, Answer>(
  requests: Iterable<Request>,
  ahead: number,
  send: (request: Request) => Promise<Answer>,
): AsyncGenerator<Answer> {
  const waiting: Promise<Answer>[] = [];
  for (const request of requests) {
    const answer = send(request);
    // it is awaited when its turn comes; until then a rejection is nobody's yet
    answer.catch(() => {});
    waiting.push(answer);
    if (waiting.length >= ahead) yield await waiting.shift()!;
  }
  for (const answer of waiting) yield await answer;
}
