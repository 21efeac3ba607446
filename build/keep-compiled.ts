import { readFileSync, writeFileSync } from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import v8 from 'node:v8';
import vm from 'node:vm';
import { seal } from './cached-code.ts';

/** Imported before the program by the build: what V8 has compiled of the program's script is kept when the process ends. */

const scripts: vm.Script[] = [];

// V8 writes its flags into what is kept: those that it begins with
v8.setFlagsFromString = () => {};
vm.Script = class extends vm.Script {
  constructor(...args: ConstructorParameters<typeof vm.Script>) {
    super(...args);
    scripts.push(this);
  }
};
syncBuiltinESMExports();

process.on('exit', () => {
  if (scripts.length !== 1) throw new Error(`the program opened ${scripts.length} scripts, not its one`);
  const { COMPILED_SCRIPT: script, KEEP_COMPILED: file } = process.env;
  writeFileSync(file!, seal(readFileSync(script!), scripts[0]!.createCachedData()));
});
