import type { TreeAnswer, TreeParts } from '../../db/answers.ts';
import { rowOrder } from './rowOrder.ts';
import { keyOf, nobody, type TreeKey, type TreeNode, type TreeNodes } from './treeNode.ts';

interface SlotName {
  readonly id: string;
  readonly name: string;
}

/** Makers, their families, generations and models, every slot of every model, and the parts of the models that have been asked for. */
export const treeNodes = (tree: TreeAnswer, parts: ReadonlyMap<string, TreeParts>, slots: readonly SlotName[]): TreeNodes =>
  withParts(nodesWithoutParts(tree, slots), parts);

/** The parts of some models put into their slots. They come while someone looks, so what has come before is kept as it was made. */
export function withParts(nodes: TreeNodes, parts: ReadonlyMap<string, TreeParts>): TreeNodes {
  if (parts.size === 0) return nodes;
  const of = new Map(nodes.of);
  for (const sitting of parts.values()) for (const node of nodesOfParts(sitting, nodes)) of.set(node.key, node);
  return { ...nodes, of };
}

const slotKey = (model: string, slot: string): TreeKey => `slot ${model} ${slot}`;

const made = new WeakMap<TreeNodes, WeakMap<TreeParts, readonly TreeNode[]>>();

function nodesOfParts(sitting: TreeParts, nodes: TreeNodes): readonly TreeNode[] {
  const madeHere = made.get(nodes) ?? new WeakMap<TreeParts, readonly TreeNode[]>();
  made.set(nodes, madeHere);
  const known = madeHere.get(sitting);
  if (known !== undefined) return known;
  const { model } = sitting;
  const own = sitting.slots.flatMap(({ slot, parts }): TreeNode[] => {
    const bare = nodes.of.get(slotKey(model, slot));
    if (bare === undefined) return [];
    const children = parts.map(
      ({ id, name, role }): TreeNode => ({
        key: `part ${model} ${id}`,
        kind: 'part',
        name,
        ref: { kind: 'part', id, name },
        parent: bare.key,
        children: [],
        from: null,
        to: null,
        role,
        lines: '',
      }),
    );
    return [{ ...bare, children: children.map(({ key }) => key) }, ...children];
  });
  madeHere.set(sitting, own);
  return own;
}

/** Families without a maker come last. A slot stands there before its parts are known, so that nothing moves when they come. */
export function nodesWithoutParts(tree: TreeAnswer, slots: readonly SlotName[]): TreeNodes {
  const of = new Map<TreeKey, TreeNode>();
  const familyNames = new Map<string, string>(tree.families.map(({ id, name }) => [id, name]));
  const generationNames = new Map<string, string>(tree.generations.map(({ id, name }) => [id, name]));
  const modelNames = new Map<string, string>(tree.models.map(({ id, name }) => [id, name]));
  const generationsOf = grouped(tree.generations, ({ family }) => family);
  const modelsOf = grouped(tree.models, ({ family, generation }) =>
    generation === null ? keyOf('family', family) : keyOf('generation', generation),
  );
  const familiesOf = grouped(tree.families, ({ maker }) => maker ?? '');
  const put = (node: TreeNode) => of.set(node.key, node);

  const putModel = (model: TreeAnswer['models'][number], parent: TreeKey) => {
    const key = keyOf('model', model.id);
    put({
      key,
      kind: 'model',
      name: model.name,
      ref: { kind: 'model', id: model.id, name: model.name },
      parent,
      children: slots.map(({ id }) => slotKey(model.id, id)),
      from: model.from,
      to: model.to,
      lines: model.patternOf === null ? '' : `made to the pattern of ${modelNames.get(model.patternOf) ?? model.patternOf}`,
    });
    for (const slot of slots) {
      put({
        key: slotKey(model.id, slot.id),
        kind: 'slot',
        name: slot.name,
        ref: null,
        parent: key,
        children: [],
        from: null,
        to: null,
        lines: '',
      });
    }
    return key;
  };

  const putFamily = (family: TreeAnswer['families'][number], parent: TreeKey) => {
    const key = keyOf('family', family.id);
    const generations = generationsOf.get(family.id) ?? [];
    const own = modelsOf.get(key) ?? [];
    const lines = (verb: string, ids: readonly string[]) =>
      ids.length === 0 ? [] : [`${verb} ${ids.map((id) => familyNames.get(id) ?? id).join(' and ')}`];
    put({
      key,
      kind: 'family',
      name: family.name,
      ref: { kind: 'family', id: family.id, name: family.name },
      parent,
      children: [...generations.map(({ id }) => keyOf('generation', id)), ...own.map(({ id }) => keyOf('model', id))],
      from: family.from,
      to: family.to,
      lines: [
        ...lines('descends from', family.descendsFrom),
        ...lines('succeeds', family.succeeds),
        ...lines('made to the pattern of', family.patternOf),
      ].join(', '),
    });
    for (const generation of generations) {
      const generationKey = keyOf('generation', generation.id);
      const models = modelsOf.get(generationKey) ?? [];
      put({
        key: generationKey,
        kind: 'generation',
        name: generation.name,
        ref: { kind: 'generation', id: generation.id, name: generation.name },
        parent: key,
        children: models.map(({ id }) => keyOf('model', id)),
        from: generation.from,
        to: generation.to,
        lines: generation.succeeds === null ? '' : `succeeds ${generationNames.get(generation.succeeds) ?? generation.succeeds}`,
      });
      for (const model of models) putModel(model, generationKey);
    }
    for (const model of own) putModel(model, key);
    return key;
  };

  const roots = [...tree.makers, null].flatMap((maker) => {
    const families = familiesOf.get(maker?.id ?? '') ?? [];
    if (maker === null && families.length === 0) return [];
    const key = maker === null ? nobody : keyOf('maker', maker.id);
    put({
      key,
      kind: 'maker',
      name: maker?.name ?? 'No maker’s name',
      ref: maker === null ? null : { kind: 'maker', id: maker.id, name: maker.name },
      parent: null,
      children: families.map(({ id }) => keyOf('family', id)),
      from: maker?.tradeNames[0]?.from ?? null,
      to: maker?.tradeNames.at(-1)?.to ?? null,
      lines:
        maker === null || maker.tradeNames.length === 0
          ? ''
          : `traded as ${maker.tradeNames.map(({ name, from, to }) => `${name} (${to === null ? `from ${from}` : `${from} to ${to}`})`).join(', ')}`,
    });
    for (const family of families) putFamily(family, key);
    return [key];
  });
  return { roots, of, rows: rowOrder(tree, of) };
}

const grouped = <T>(list: readonly T[], keyOf: (item: T) => string): Map<string, T[]> => {
  const groups = new Map<string, T[]>();
  for (const item of list) {
    const key = keyOf(item);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [item]);
    else group.push(item);
  }
  return groups;
};
