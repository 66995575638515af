import { checkSheet, type Outcome, type Store, TroubleError } from '../../db/index.ts';
import {
  type Atlas,
  type CasesWould,
  type CaseToJudge,
  type CompiledAtlas,
  casesWould,
  compileAtlas,
  type RetoldProgress,
} from '../../reasoner/index.ts';
import { refusal, well } from '../bridge/reply.ts';
import { type KeptAtlas, knownIn } from './kept-atlas.ts';

/** The atlas as it is and as a change would leave it, both made of one state of it. */
export interface BothAtlases {
  readonly before: CompiledAtlas;
  readonly after: CompiledAtlas;
  /** Of the atlas as it is. */
  readonly version: string;
}

/** How often the two are made anew where the atlas is changed elsewhere between them. */
const most = 5;

/**
 * Null where the change has faults. Troubles: as of the change, and `changed-since` where the atlas does not hold still.
 * @param after the atlas as the change would leave it, read anew at each call
 */
export const bothAtlases = async (
  store: Store,
  kept: KeptAtlas,
  after: () => Promise<Outcome<Atlas | null>>,
): Promise<Outcome<BothAtlases | null>> => {
  for (let tried = 0; tried < most; tried += 1) {
    const version = await versionIn(store);
    const would = await after();
    if (!would.ok) return would;
    if (would.value === null) return well(null);
    const before = await kept.now();
    if ((await versionIn(store)) === version) return well({ before, after: compileAtlas(would.value), version });
  }
  return refusal('changed-since', null, 'The atlas is being changed elsewhere at this moment, so nothing was judged. Try it again.');
};

/** Another one whenever another atlas is reasoned over. */
export const versionIn = async (store: Store): Promise<string> => {
  const state = await store.atlas.state();
  if (!state.ok) throw new TroubleError(state.trouble);
  return state.value.version;
};

/** Every saved case judged by both, a case at a time, as each was saved last when this is called. */
export const casesJudged = async (
  store: Store,
  { before, after }: BothAtlases,
): Promise<Outcome<{ readonly of: number; readonly run: Generator<RetoldProgress, CasesWould, boolean | undefined> }>> => {
  const told = await store.cases.lastTold();
  if (!told.ok) return told;
  const cases = told.value.map(({ verdict: _, left: __, ...one }): CaseToJudge => one);
  const run = casesWould(before, after, cases, (atlas, sheet) => {
    const held = checkSheet(sheet, knownIn(atlas));
    return held.ok ? { sheet: held.value } : { faults: (held.trouble.all ?? [held.trouble]).map(({ sentence }) => sentence) };
  });
  return well({ of: cases.length, run });
};
