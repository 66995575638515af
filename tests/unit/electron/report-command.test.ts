import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { exitCodes } from '../../../electron/command-line/exit-codes.ts';
import { writeWhole } from '../../../electron/command-line/write-whole.ts';
import { linesOf, type Report } from '../../../reasoner/index.ts';
import { readPdf } from '../report/read-pdf.ts';
import { kinplateRun } from './kinplate-run.ts';

const smallPack = path.join(import.meta.dirname, '../db/fixtures/small-pack');
const sample = path.join(smallPack, 'sheets/found-01.json');
let scratch: string;
beforeEach(() => {
  scratch = mkdtempSync(path.join(tmpdir(), 'kinplate-report-'));
});
afterEach(() => rmSync(scratch, { recursive: true, force: true }));

const kinplate = (...args: string[]) => kinplateRun(args, { shipped: path.dirname(smallPack), input: () => readFileSync(sample, 'utf8') });
const report = (...more: string[]) => kinplate('report', '--pack', smallPack, '--sheet', sample, ...more);

describe('kinplate report', () => {
  test('[W1] writes the PDF whole, with every line of the document, and leaves nothing else behind', async () => {
    const file = path.join(scratch, 'out.pdf');
    writeFileSync(file, 'the report before');
    const { code, out } = await report('--pdf', file);
    expect({ code, out }).toEqual({ code: exitCodes.stands, out: '' });
    expect(readdirSync(scratch)).toEqual(['out.pdf']);
    const { text } = await readPdf(readFileSync(file));
    const document = JSON.parse((await report('--format', 'json')).out) as Report;
    const paper = text.join('\n').replace(/\s+/g, '');
    for (const line of linesOf(document)) expect(paper).toContain(line.text.replace(/\s+/g, ''));
  });

  test('[W1] without a file it is the same document in words', async () => {
    const { code, out } = await report();
    expect(code).toBe(exitCodes.stands);
    const document = JSON.parse((await report('--format', 'json')).out) as Report;
    const drawn = document.sections.flatMap(({ blocks }) =>
      blocks.flatMap((block) => (block.kind === 'graph' ? [block.caption.text] : [])),
    );
    for (const line of linesOf(document)) if (!drawn.includes(line.text)) expect(out).toContain(line.text);
    expect(out).toContain('Report made: 4 March 2026');
    expect((await kinplate('report', '--pack', smallPack, '--sheet', '-')).out).toBe(out);
  });

  test('where the file cannot be written, that is said with its own exit code and what was there stays', async () => {
    const taken = path.join(scratch, 'taken.pdf');
    mkdirSync(taken);
    const { code, err } = await report('--pdf', taken);
    expect(code).toBe(exitCodes.cannotWrite);
    expect(err).toContain('taken.pdf could not be written');
    expect(readdirSync(scratch)).toEqual(['taken.pdf']);
    expect((await report('--pdf', path.join(scratch, 'no/such/folder/out.pdf'))).code).toBe(exitCodes.cannotWrite);
  });

  test('[J2] a planned build has no report; a sheet that is not there, or a command line that says too much, is refused', async () => {
    const planned = path.join(smallPack, 'sheets/planned-01.json');
    const plan = await kinplate('report', '--pack', smallPack, '--sheet', planned, '--pdf', path.join(scratch, 'plan.pdf'));
    expect(plan.code).toBe(exitCodes.badInput);
    expect(plan.err).toContain('build sheet');
    expect(readdirSync(scratch)).toEqual([]);
    expect((await kinplate('report', '--pack', smallPack, '--sheet', path.join(scratch, 'none.json'))).code).toBe(exitCodes.noInput);
    expect((await report('more')).code).toBe(exitCodes.usage);
    expect((await report('--pdf', '')).code).toBe(exitCodes.usage);
    expect((await kinplate('report', '--pack', smallPack)).code).toBe(exitCodes.usage);
  });

  test('a text is written whole too', async () => {
    const file = path.join(scratch, 'list.csv');
    expect(await writeWhole(file, 'a,b\n')).toEqual({ ok: true, value: null });
    expect(readFileSync(file, 'utf8')).toBe('a,b\n');
    expect(readdirSync(scratch)).toEqual(['list.csv']);
  });
});
