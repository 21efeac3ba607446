/** What is used of it: the types of Node have it for a browser alone. */
interface WebAssembly {
  readonly Memory: new (size: { readonly initial: number }) => WasmMemory;
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (
    module: object,
    imports: { readonly env: { readonly memory: WasmMemory } },
  ) => { readonly exports: unknown };
}

export interface WasmMemory {
  /** Another one after each `grow`. Begins where a page of the machine's memory does. */
  readonly buffer: ArrayBuffer;
  grow(pages: number): void;
}

export const { Memory, Module, Instance } = (globalThis as unknown as { readonly WebAssembly: WebAssembly })
  .WebAssembly;

/** Bytes of a page of its memory. */
export const WASM_PAGE = 2 ** 16;
