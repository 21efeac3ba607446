/** A request of one's own worker thread; of those that come while it is busy only the last is answered. */
export function latestWorker<Request, Answer>(
  start: (onAnswer: (answer: Answer) => void) => Worker,
  message: (request: Request) => unknown,
  show: (answer: Answer, request: Request) => void,
): (request: Request) => void {
  let worker: Worker | null = null;
  let current: Request | null = null;
  let next: Request | null = null;
  const send = (request: Request) => {
    current = request;
    worker!.postMessage(message(request));
  };
  return (request) => {
    worker ??= start((answer) => {
      const shown = current!;
      current = null;
      if (next !== null) {
        const following = next;
        next = null;
        send(following);
      }
      show(answer, shown);
    });
    if (current === null) send(request);
    else next = request;
  };
}
