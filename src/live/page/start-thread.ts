import type { LiveStudy } from '../live-data.ts';
import type { WorkerMessage } from './view-worker.ts';

/** Worker threads that run the page's own script and know the study. */
export function startThread(
  study: LiveStudy,
  program: string,
): <Answer>(onAnswer: (answer: Answer) => void) => Worker {
  const source = URL.createObjectURL(new Blob([program], { type: 'text/javascript' }));
  return <Answer>(onAnswer: (answer: Answer) => void) => {
    const worker = new Worker(source);
    worker.onmessage = ({ data }: MessageEvent<Answer>) => onAnswer(data);
    worker.postMessage({ kind: 'study', study } satisfies WorkerMessage);
    return worker;
  };
}
