import {
  answerInBrief,
  type CompiledAtlas,
  explain,
  type InBrief,
  type NameAnswer,
  type NameId,
  type Sheet,
} from '../../reasoner/index.ts';
import { LastFew } from '../../reasoner/plain/last-few.ts';

/** So many sheets: the one on the bench, as it was before, and one beside it. A verdict over a large atlas holds hundreds of thousands of names. */
const most = 3;
/** So many names of a sheet whose reasons were asked for. */
const mostNames = 4;
/** What is spent when all conflicts of a name are asked for: some seconds at worst, and whoever asked waits for them. */
const longEffort = { conflicts: 20_000, questions: 20_000 };

interface Key {
  readonly atlas: CompiledAtlas;
  readonly edition: string;
  readonly sheet: string;
}

/** A sheet judged, with what was asked about it afterwards. */
export type Kept = InBrief & {
  /** The name with its conflicts and swap sets, one of those judged; `all`: every conflict there is, which may take seconds. */
  readonly explained: (name: NameId, all: boolean) => NameAnswer;
};

/**
 * The last verdicts, each for one sheet over one compiled atlas of one edition, so that a page of what a verdict speaks of is not judged anew. An atlas that says
 * something else is another compiled atlas, and what was judged over the one before is never told again (H5).
 */
export class KeptVerdicts {
  readonly #last = new LastFew<Key, Kept>(
    most,
    (one, other) => one.atlas === other.atlas && one.edition === other.edition && one.sheet === other.sheet,
  );

  /** @param sheet as it was held against this atlas */
  of(atlas: CompiledAtlas, sheet: Sheet): Kept {
    return this.#last.of({ atlas, edition: atlas.data.edition, sheet: JSON.stringify(sheet) }, () => keptOf(atlas, sheet));
  }

  get size(): number {
    return this.#last.size;
  }
}

const keptOf = (atlas: CompiledAtlas, sheet: Sheet): Kept => {
  const answered = answerInBrief(atlas, sheet);
  const explained = new LastFew<string, NameAnswer>(mostNames, (one, other) => one === other);
  return {
    ...answered,
    explained: (name, all) => {
      const told =
        answered.kind === 'verdict' && !all
          ? answered.brief.spoken.find((one) => one.name.id === name && one.conflicts !== null)
          : undefined;
      return told ?? explained.of(`${name} ${all}`, () => explain(atlas, sheet, name, all ? longEffort : undefined));
    },
  };
};
