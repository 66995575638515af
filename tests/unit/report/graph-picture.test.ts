import { describe, expect, test } from 'vitest';
import type { ReportBlock } from '../../../reasoner/index.ts';
import { wrapped } from '../../../reasoner/report/graph-picture.ts';
import { demo, demoAtlas, demoPack } from '../seed/demo-atlas.ts';
import { groundOf, reportOn } from './proof.ts';

const found = demoPack.sheets.filter(({ kind }) => kind === 'found');
type Graph = Extract<ReportBlock, { kind: 'graph' }>;

const drawn = found.flatMap((sheet) => {
  const ground = groundOf(demo, sheet);
  const blocks = reportOn(ground).sections.flatMap((section) => section.blocks);
  const graph = blocks.find((block): block is Graph => block.kind === 'graph');
  const numbered = blocks.find((block) => block.kind === 'list' && block.numbered);
  return graph && numbered?.kind === 'list' && ground.answer.kind === 'verdict' ? [{ sheet, graph, lines: numbered.lines }] : [];
});

describe('the reasons drawn', () => {
  test('[K2] the sheets with reasons have a picture of them', () => expect(drawn.length).toBeGreaterThan(10));

  test('[K2] every member of every printed reason is in the picture once, with the numbers of its reasons', () => {
    for (const { sheet, graph, lines } of drawn) {
      const numbers = new Map<string, number[]>();
      lines.forEach(({ because }, i) => {
        for (const member of because) {
          if (member.kind === 'conflict' || member.kind === 'finding') continue;
          const key = JSON.stringify(member.kind === 'rule' ? { kind: 'rule', slot: member.slot } : member);
          numbers.set(key, [...(numbers.get(key) ?? []), i + 1]);
        }
      });
      const wanted = [...numbers.values()].map((of) => of.join(', ')).sort();
      const shown = graph.picture.shapes.filter(({ kind }) => kind !== 'slot').map((shape) => shape.numbers);
      expect(shown.sort(), sheet.id).toEqual(wanted);
    }
  });

  test('[K2] only slots some reason touches are drawn, from the compressor side to the turbine side', () => {
    for (const { graph, lines } of drawn) {
      const slots = graph.picture.shapes.filter(({ kind }) => kind === 'slot').sort((a, b) => a.y - b.y);
      const names = slots.map((shape) => shape.lines.join(' '));
      const order = demoAtlas.slots.map(({ name }) => name);
      expect(names).toEqual([...names].sort((a, b) => order.indexOf(a) - order.indexOf(b)));
      const text = lines
        .map((line) => line.text)
        .join('\n')
        .toLowerCase();
      for (const name of names) expect(text).toContain(name);
    }
  });

  test('[K2] nothing lies outside the picture or on anything else', () => {
    for (const { graph } of drawn) {
      const { shapes, width, height } = graph.picture;
      for (const [i, a] of shapes.entries()) {
        expect(a.x - a.width / 2).toBeGreaterThanOrEqual(0);
        expect(a.x + a.width / 2).toBeLessThanOrEqual(width);
        expect(a.y - a.height / 2).toBeGreaterThanOrEqual(0);
        expect(a.y + a.height / 2).toBeLessThanOrEqual(height);
        for (const b of shapes.slice(i + 1))
          expect(Math.abs(a.x - b.x) >= (a.width + b.width) / 2 || Math.abs(a.y - b.y) >= (a.height + b.height) / 2).toBe(true);
      }
    }
  });

  test('a label keeps its words, and says where it was cut', () => {
    expect(wrapped('7 full blades', 34)).toEqual(['7 full blades']);
    expect(wrapped('clockwise, seen from the compressor end', 24)).toEqual(['clockwise, seen from the', 'compressor end']);
    expect(wrapped('one two three four five six seven', 9)).toEqual(['one two', 'three fo…']);
    expect(wrapped('MERROWBYROTATINGMACHINES', 10)).toEqual(['MERROWBYRO', 'TATINGMAC…']);
  });
});
