import { UsageError } from '../errors.ts';
import type { Input } from './io.ts';

/** A stream can be read once, and a command may look at its study twice. */
const read = new WeakMap<Input, Promise<Uint8Array>>();

/** At most so many bytes of what comes through stdin, to its end. Throws UsageError where nothing comes through it. */
export async function readStdin(
  stdin: Input | undefined,
  most: number,
  signal?: AbortSignal,
): Promise<Uint8Array> {
  if (!stdin) throw new UsageError('cannot read -: nothing is piped to stdin');
  const reading = read.get(stdin) ?? readAll(stdin, most, signal);
  read.set(stdin, reading);
  return reading;
}

async function readAll(stdin: Input, most: number, signal?: AbortSignal): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  let length = 0;
  const stop = () => (stdin as Partial<NodeJS.ReadStream>).destroy?.();
  signal?.addEventListener('abort', stop, { once: true });
  try {
    for await (const chunk of stdin) {
      const bytes = typeof chunk === 'string' ? new TextEncoder().encode(chunk) : chunk;
      chunks.push(bytes);
      length += bytes.length;
      if (length > most) break;
    }
  } catch (error) {
    if (!signal?.aborted) {
      const { code, message } = error as NodeJS.ErrnoException;
      throw new UsageError(`cannot read -: ${code ?? message}`, { cause: error });
    }
  } finally {
    signal?.removeEventListener('abort', stop);
  }
  const whole = new Uint8Array(Math.min(length, most));
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk.subarray(0, whole.length - at), at);
    at = Math.min(whole.length, at + chunk.length);
  }
  return whole;
}
