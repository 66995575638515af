import type { FamilyId, MakerId, ModelId, PartId } from '../../reasoner/index.ts';
import type {
  DescentAnswer,
  FamilyPage,
  FitsAnswer,
  MakerPage,
  ModelPage,
  NodeRef,
  NumbersAnswer,
  PartPage,
  RelatedAnswer,
  SearchHit,
  TreeAnswer,
  TreeParts,
} from '../answers.ts';
import type { Door } from '../driver/door.ts';
import { done, type Outcome } from '../trouble.ts';
import { descentOf } from './descent.ts';
import { acrossOf, type JudgeFit, judgedFitsOf, keptFitsOf } from './fits.ts';
import type { FitEngine } from './keep-fits.ts';
import { keepFits } from './keep-fits-anew.ts';
import { noSuchNode } from './node-refs.ts';
import { numbersAnswer } from './number-first.ts';
import { familyPage, makerPage, modelPage, partPage } from './pages.ts';
import { relationOf } from './related.ts';
import { type NodeKey, relationOfNodes } from './related-nodes.ts';
import { searchAtlas } from './search.ts';
import { modelsSharingCore } from './shares-core.ts';
import { supersessionOf } from './supersession.ts';
import { partsOfModels, treeOf } from './tree.ts';

/** What is asked of the atlas as a graph: makers, families, generations, models and parts, and how they hang together. */
export interface GraphShelf {
  /** Names and part numbers, as one types. */
  search(text: string, limit: number): Promise<Outcome<readonly SearchHit[]>>;
  /** What is known of a part number; near ones where no part has it. */
  number(text: string): Promise<Outcome<NumbersAnswer>>;
  maker(id: MakerId): Promise<Outcome<MakerPage>>;
  family(id: FamilyId): Promise<Outcome<FamilyPage>>;
  model(id: ModelId): Promise<Outcome<ModelPage>>;
  part(id: PartId): Promise<Outcome<PartPage>>;
  /** What else a part fits: from the fits kept, or judged by the function that is asked for then. */
  fits(part: PartId, judge: () => Promise<JudgeFit>): Promise<Outcome<FitsAnswer>>;
  descent(family: FamilyId): Promise<Outcome<DescentAnswer>>;
  /** The shortest reason two families are related. */
  related(a: FamilyId, b: FamilyId): Promise<Outcome<RelatedAnswer>>;
  /** The shortest reason any two nodes are related, be they makers, families, generations, models or parts. */
  relatedNodes(a: NodeKey, b: NodeKey): Promise<Outcome<RelatedAnswer>>;
  /** Makers, families, generations and models with their lines and what they share. */
  tree(): Promise<Outcome<TreeAnswer>>;
  treeParts(models: readonly ModelId[]): Promise<Outcome<readonly TreeParts[]>>;
  /** The line of parts that took each other's place, oldest first. */
  supersession(part: PartId): Promise<Outcome<readonly NodeRef[]>>;
  /** Models one and the same core may be right for. */
  sharesCore(model: ModelId): Promise<Outcome<readonly NodeRef[]>>;
}

export const graphShelf = (
  door: Door,
  { writable, fitEngine }: { readonly writable: boolean; readonly fitEngine: FitEngine | undefined },
): GraphShelf => {
  const { read, one } = door;
  return {
    search: (text, limit) => read((reader) => searchAtlas(reader, text, limit)),
    number: (text) => read((reader) => numbersAnswer(reader, text)),
    maker: (id) => read((reader) => makerPage(reader, id)),
    family: (id) => read((reader) => familyPage(reader, id)),
    model: (id) => read((reader) => modelPage(reader, id)),
    part: (id) => read((reader) => partPage(reader, id)),
    fits: async (part, judge) => {
      if (fitEngine !== undefined) {
        const fromKept = () => one((reader) => keptFitsOf(reader, part, fitEngine));
        let answer = await fromKept();
        if (answer.ok && answer.value === null && writable) {
          // An atlas from before fits were kept, or whose last change was made without the engine.
          const kept = await keepFits(door, fitEngine);
          if (!kept.ok) return kept;
          answer = await fromKept();
        }
        if (!answer.ok) return answer;
        if (answer.value !== null) return done(answer.value);
      }
      const across = await read((reader) => acrossOf(reader, part));
      return across.ok ? done(judgedFitsOf(part, across.value, await judge())) : across;
    },
    descent: (family) => read((reader) => descentOf(reader, family)),
    related: (a, b) => read((reader) => relationOf(reader, a, b)),
    relatedNodes: (a, b) => read((reader) => relationOfNodes(reader, a, b)),
    tree: () => read(treeOf),
    treeParts: (models) => read((reader) => partsOfModels(reader, models)),
    supersession: (part) =>
      read(async (reader) => {
        const line = await supersessionOf(reader, part);
        return line.length === 0 ? noSuchNode('part', part) : line;
      }),
    sharesCore: (model) => read((reader) => modelsSharingCore(reader, model)),
  };
};
