/**
 * An action at most once for each picture of the screen: the first request is met at once, all others of the same frame
 * together in the next.
 */
export function onceAFrame(action: () => void): () => void {
  let isOver = true;
  let isDue = false;
  const request = (): void => {
    if (!isOver) {
      isDue = true;
      return;
    }
    isOver = false;
    requestAnimationFrame(() => {
      isOver = true;
      if (!isDue) return;
      isDue = false;
      request();
    });
    action();
  };
  return request;
}
