/** Drawn this much before it comes into sight, of the height of the screen. */
const MARGIN = '50%';

/**
 * Whether a part of the page is on the screen, or nearly: what nobody sees need not be drawn for every step of a drag.
 * @param onNear whenever it comes near, and before the page is printed
 */
export function nearScreen(element: Element, onNear: () => void): () => boolean {
  let isNear = false;
  const watch = new IntersectionObserver(
    (entries) => {
      const was = isNear;
      isNear = entries.at(-1)!.isIntersecting;
      if (isNear && !was) onNear();
    },
    { rootMargin: `${MARGIN} 0px` },
  );
  watch.observe(element);
  addEventListener('beforeprint', onNear);
  return () => isNear;
}
