import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseSync } from 'vite';

const root = fileURLToPath(new URL('../../../renderer', import.meta.url));

/** The sources of the window by their path in `renderer/`. */
export const sources: ReadonlyMap<string, string> = new Map(
  readdirSync(root, { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.tsx?$/.test(file))
    .map((file) => [file.split(path.sep).join('/'), readFileSync(path.join(root, file), 'utf8')]),
);

/** A node of the tree a source is read into (ESTree with JSX). */
interface Node {
  readonly type: string;
  readonly [field: string]: unknown;
}
const isNode = (value: unknown): value is Node => typeof value === 'object' && value !== null && 'type' in value;
const nodesIn = (node: Node): readonly Node[] => Object.values(node).flat().filter(isNode);

/** Attributes of an element whose text is shown; what a component is given may all be. */
const shownOnElements: readonly unknown[] = ['placeholder', 'label', 'alt'];

/**
 * What a source can put on the screen: texts between tags, with `{}` where something is filled in, and texts in quotes that are not compared with, imported, or given to an
 * attribute nobody sees.
 */
export const shownBy = (file: string, text: string): ReadonlySet<string> => {
  const { program, errors } = parseSync(file, text, { sourceType: 'module', lang: file.endsWith('x') ? 'tsx' : 'ts' });
  if (errors.length > 0) throw new Error(`${file}: ${errors[0]?.message}`);
  const shown = new Set<string>();
  const show = (said: string): void => {
    if (/\p{L}/u.test(said)) shown.add(said.replace(/\s+/g, ' ').trim());
  };
  const visit = (node: Node): void => {
    switch (node.type) {
      case 'Literal':
        if (typeof node.value === 'string') show(node.value);
        return;
      case 'TemplateLiteral':
        show(templated(node));
        break;
      case 'JSXElement':
      case 'JSXFragment':
        for (const run of runsIn(node.children as readonly Node[])) show(run);
        break;
      case 'TSLiteralType':
        return;
    }
    for (const inner of nodesIn(node)) if (!isHidden(inner, node)) visit(inner);
  };
  visit(program as unknown as Node);
  return shown;
};

/** Whether a text that stands at this place of its parent is one nobody reads. */
const isHidden = (node: Node, parent: Node): boolean => {
  switch (parent.type) {
    case 'ImportDeclaration':
      return true;
    case 'BinaryExpression':
      return node.type === 'Literal' && /^[!=]==?$/.test(String(parent.operator));
    case 'SwitchCase':
      return node === parent.test;
    case 'JSXOpeningElement': {
      if (node.type !== 'JSXAttribute') return false;
      const [element, attribute] = [(parent.name as Node).name, (node.name as Node).name];
      return /^[a-z]/.test(String(element)) ? !shownOnElements.includes(attribute) : attribute === 'className';
    }
    default:
      return false;
  }
};

/** The texts between the tags of an element's children; a tag ends one. */
const runsIn = (children: readonly Node[]): readonly string[] => {
  const runs = [''];
  for (const child of children) {
    if (child.type === 'JSXText') runs.push(`${runs.pop()}${decoded(String(child.value))}`);
    else if (child.type !== 'JSXExpressionContainer') runs.push('');
    else {
      const { type, value } = child.expression as Node;
      runs.push(`${runs.pop()}${type === 'Literal' ? value : type === 'JSXEmptyExpression' ? '' : '{}'}`);
    }
  }
  return runs;
};

const templated = ({ quasis }: Node): string =>
  (quasis as readonly { readonly value: { readonly cooked: string } }[]).map(({ value }) => value.cooked).join('{}');

const decoded = (text: string): string => text.replace(/&lt;/g, '<').replace(/&gt;/g, '>').replace(/&amp;/g, '&');
