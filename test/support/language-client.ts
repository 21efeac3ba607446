import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { PROJECT } from './source-files.ts';

/** An editor's side of the YAML language server (Language Server Protocol 3.17, JSON-RPC over stdio), as far as tests need it. */
export interface LanguageClient {
  /** Opens a text as a file of this path, once; resolves with the squiggles, each as its text and message. */
  open(path: string, text: string): Promise<Squiggle[]>;
  /** What is shown where the pointer rests. */
  hover(path: string, position: Position): Promise<string>;
  complete(path: string, position: Position): Promise<string[]>;
  stop(): Promise<void>;
}

export interface Position {
  readonly line: number;
  readonly character: number;
}

export interface Squiggle {
  readonly text: string;
  readonly message: string;
}

interface Message {
  readonly id?: number;
  readonly method?: string;
  readonly params?: {
    readonly uri?: string;
    readonly diagnostics?: Diagnostic[];
    readonly items?: unknown[];
  };
  readonly result?: unknown;
}

interface Diagnostic {
  readonly message: string;
  readonly range: { readonly start: Position; readonly end: Position };
}

export async function startLanguageServer(): Promise<LanguageClient> {
  const server = spawn(
    process.execPath,
    [join(PROJECT, 'node_modules/yaml-language-server/bin/yaml-language-server'), '--stdio'],
    { stdio: ['pipe', 'pipe', 'ignore'] },
  );
  const replies = new Map<number, (result: unknown) => void>();
  const diagnosed = new Map<string, (diagnostics: Diagnostic[]) => void>();
  let last = 0;

  function send(message: object): void {
    const body = JSON.stringify({ jsonrpc: '2.0', ...message });
    server.stdin!.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  }
  function request<T>(method: string, params: unknown): Promise<T> {
    const id = ++last;
    const reply = new Promise<T>((resolve) => replies.set(id, resolve as (result: unknown) => void));
    send({ id, method, params });
    return reply;
  }
  listen(server, (message) => {
    const { id, method, params, result } = message;
    if (method === 'textDocument/publishDiagnostics') {
      diagnosed.get(params!.uri!)?.(params!.diagnostics!);
    } else if (method !== undefined && id !== undefined) {
      // what the server asks: settings, one an item, all of them left as they are
      send({ id, result: method === 'workspace/configuration' ? params!.items!.map(() => null) : null });
    } else if (id !== undefined) replies.get(id)?.(result);
  });

  await request('initialize', { processId: process.pid, rootUri: null, capabilities: {} });
  send({ method: 'initialized', params: {} });
  const at = (path: string, position: Position) => ({
    textDocument: { uri: pathToFileURL(path).href },
    position,
  });
  return {
    async open(path, text) {
      const uri = pathToFileURL(path).href;
      const squiggles = new Promise<Diagnostic[]>((resolve) => diagnosed.set(uri, resolve));
      send({
        method: 'textDocument/didOpen',
        params: { textDocument: { uri, languageId: 'yaml', version: 1, text } },
      });
      const lines = text.split('\n');
      return (await squiggles).map(({ message, range: { start, end } }) => ({
        message,
        text: lines[start.line]!.slice(start.character, end.line === start.line ? end.character : undefined),
      }));
    },
    async hover(path, position) {
      const found = await request<{ contents: { value: string } } | null>(
        'textDocument/hover',
        at(path, position),
      );
      return found?.contents.value ?? '';
    },
    async complete(path, position) {
      const found = await request<{ items: { label: string }[] }>(
        'textDocument/completion',
        at(path, position),
      );
      return found.items.map(({ label }) => label);
    },
    async stop() {
      server.kill();
      await once(server, 'close');
    },
  };
}

function listen(server: ChildProcess, take: (message: Message) => void): void {
  let bytes = Buffer.alloc(0);
  server.stdout!.on('data', (chunk: Buffer) => {
    bytes = Buffer.concat([bytes, chunk]);
    for (;;) {
      const end = bytes.indexOf('\r\n\r\n');
      const length = Number(
        /Content-Length: (\d+)/.exec(bytes.subarray(0, Math.max(0, end)).toString())?.[1],
      );
      if (end < 0 || bytes.length < end + 4 + length) return;
      const body = bytes.subarray(end + 4, end + 4 + length).toString();
      bytes = bytes.subarray(end + 4 + length);
      take(JSON.parse(body));
    }
  });
}
