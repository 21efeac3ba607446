import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { KNOWN_METAL_NAMES, metalCalled } from '../../src/model/metal-names.ts';
import { readStudy } from '../../src/study/read-study.ts';
import { studySchemaText } from '../../src/study/schema.ts';
import { type LanguageClient, type Position, startLanguageServer } from '../support/language-client.ts';
import { PROJECT } from '../support/source-files.ts';

/** Study files as an editor shows them, by the YAML language server itself, and as ajv judges them. */

const STUDIES = join(PROJECT, 'studies');
let drafts = 0;
const MODELINE = '# yaml-language-server: $schema=./study.schema.json\n';

const demos = [
  ...readdirSync(STUDIES).map((name) => join(STUDIES, name)),
  ...['next-design.yaml', 'prediction.yaml'].map((name) => join(STUDIES, 'bench', name)),
].filter((path) => path.endsWith('.yaml'));

let editor: LanguageClient;
beforeAll(async () => {
  editor = await startLanguageServer();
});
afterAll(async () => editor.stop());

interface Draft {
  readonly path: string;
  readonly at: Position;
  readonly messages: readonly string[];
  readonly squiggles: readonly string[];
}

/** Opens a text, in which `|` is where the cursor stands. */
async function draft(text: string): Promise<Draft> {
  // beside the demo studies, so that the modeline's path leads to their schema; it is in the editor alone
  const path = join(STUDIES, `draft-${drafts++}.yaml`);
  const before = (MODELINE + text).split('|')[0]!.split('\n');
  const at = { line: before.length - 1, character: before.at(-1)!.length };
  const found = await editor.open(path, MODELINE + text.replace('|', ''));
  return {
    path,
    at,
    messages: found.map(({ message }) => message),
    squiggles: found.map(({ text: marked }) => marked),
  };
}

async function completed(text: string): Promise<string[]> {
  const { path, at } = await draft(text);
  return editor.complete(path, at);
}

describe('the YAML language server', () => {
  it.each(demos)('finds nothing wrong with %s, which names its schema', async (path) => {
    const text = readFileSync(path, 'utf8');
    expect(text).toMatch(/^# yaml-language-server: \$schema=\.\.?\/study\.schema\.json\n/);
    expect(await editor.open(path, text)).toEqual([]);
  });

  it('completes metals, wires, enamel and thermal classes', async () => {
    expect(await completed('rig:\n  coil:\n    metal: |\n')).toEqual(
      expect.arrayContaining(['copper', 'aluminium', 'aluminium-1050', 'brass']),
    );
    expect(await completed('vary:\n  coil.metal:\n    - |\n')).toEqual(expect.arrayContaining(['copper']));
    expect(await completed('rig:\n  coil:\n    wire: |\n')).toEqual(
      expect.arrayContaining(['2 mm', '1.25 mm', 'AWG 12']),
    );
    expect(await completed('rig:\n  coil:\n    insulation: |\n')).toEqual(
      expect.arrayContaining(['grade 2']),
    );
  });

  it('completes quantities under keep, keys of the rig and paths that vary', async () => {
    expect(await completed('keep:\n  - |\n')).toEqual(
      expect.arrayContaining(['height', 'liftoff_current', 'sideways_stiffness']),
    );
    expect(await completed('rig:\n  coil:\n    |\n')).toEqual(expect.arrayContaining(['turns', 'layers']));
    expect(await completed('vary:\n  |\n')).toEqual(
      expect.arrayContaining(['coil.turns', 'plate.thickness', 'coil.metal']),
    );
  });

  it.each([
    ['vary: {|coil.wire: [1 mm, 2 mm]}', 'bare wire diameter'],
    ['vary: {|coil.turns: {from: 1, to: 9, step: 1}}', 'turns'],
    ['tolerance: {|standoff: 0.2 mm}', 'gap'],
    ['rig: {coil: {|thermal_class: 130}}', 'IEC 60085'],
  ])('says over %s what the input is', async (text, meaning) => {
    const { path, at } = await draft(`${text}\n`);
    expect(await editor.hover(path, { ...at, character: at.character + 2 })).toContain(meaning);
  });

  it.each([
    ['two plans', 'plan: {grid: {}, sobol: {points: 8}}', /plan|properties/i, 'grid'],
    ['a negative thickness', 'rig: {plate: {thickness: -3 mm}}', /pattern|match/i, '-3 mm'],
    ['a negative number', 'rig: {plate: {thickness: -0.003}}', /\b0\b/, '-0.003'],
    ['a negative value that varies', 'vary: {plate.thickness: [-3 mm, 2 mm]}', /pattern|match/i, '-3 mm'],
    ['an unknown metal', 'rig: {coil: {metal: unobtainium}}', /accepted|pattern|one of/i, 'unobtainium'],
    ['half a turn', 'rig: {coil: {turns: 400.5}}', /1/, '400.5'],
    ['an unknown key', 'rig: {coil: {turn: 400}}', /turn/, 'turn'],
    ['both senses', 'objectives: [{maximise: height, minimise: height}]', /properties/i, 'maximise'],
  ])('underlines %s', async (_, text, message, marked) => {
    const whole = `study: s\n${text.includes('rig:') ? '' : 'rig: {}\n'}${text}\n`;
    const { messages, squiggles } = await draft(whole);
    const i = squiggles.findIndex((each) => each.includes(marked));
    expect(squiggles, messages.join('\n')).toEqual(expect.arrayContaining([expect.stringContaining(marked)]));
    expect(messages[i]).toMatch(message);
  });
});

describe('the schema, by ajv', () => {
  const validate = new Ajv2020({
    strict: true,
    allowUnionTypes: true,
    strictTypes: false,
    strictRequired: false,
  }).compile(JSON.parse(studySchemaText()));

  it('has an $id', () => {
    expect(JSON.parse(studySchemaText()).$id).toMatch(/^urn:/);
  });

  it('takes every demo study', () => {
    for (const path of demos) expect(validate(parse(readFileSync(path, 'utf8'))), path).toBe(true);
  });

  const study = (rig: object) => ({ study: 's', rig });

  it('takes metals however the reader takes them, and refuses those that it refuses', () => {
    for (const name of [...KNOWN_METAL_NAMES, 'cu etp', 'EN_AW 6082', 'ALUMINUM', 'al MgSi', 'enaw6060']) {
      expect(metalCalled(name), name).toBeDefined();
      expect(validate(study({ coil: { metal: name } })), name).toBe(true);
    }
    for (const name of ['unobtainium', 'coppery', 'EN AW-', '', '60600']) {
      expect(metalCalled(name), name).toBeUndefined();
      expect(validate(study({ coil: { metal: name } })), name).toBe(false);
    }
  });

  it('refuses no value that the reader takes', () => {
    const text = readFileSync(join(STUDIES, 'metal-and-turns.yaml'), 'utf8');
    const values = ['0.5 mm', '.5mm', ' 12 mm', '1e1 mm', '+3 mm', 'thick', '0.012', '1/4 in', '0.25 in'];
    for (const value of values) {
      const changed = text.replace(/thickness: 12 mm/, `thickness: ${JSON.stringify(value)}`);
      expect(changed).not.toBe(text);
      if ('study' in readStudy(changed)) expect(validate(parse(changed)), value).toBe(true);
    }
  });
});
