import { checkSheet, type KnownToAtlas, type Outcome, type Store, TroubleError } from '../../db/index.ts';
import { type Atlas, type CompiledAtlas, compileAtlas, type Pulse, recompileAtlas, type Sheet, slipOf } from '../../reasoner/index.ts';

/** The compiled atlas, made once for each version of it: what was compiled stands until a change says something else (H5). */
export class KeptAtlas {
  readonly #store: Store;
  #kept: { readonly version: string; readonly atlas: Promise<CompiledAtlas> } | null = null;

  readonly #pulse: Pulse | undefined;
  readonly #onRead: ((read: Atlas) => void) | undefined;

  /**
   * @param pulse called by long answers over the atlas as they go
   * @param onRead called with each atlas that was read and compiled
   */
  constructor(store: Store, pulse?: Pulse, onRead?: (read: Atlas) => void) {
    this.#store = store;
    this.#pulse = pulse;
    this.#onRead = onRead;
  }

  async now(): Promise<CompiledAtlas> {
    const state = await this.#store.atlas.state();
    if (!state.ok) throw new TroubleError(state.trouble);
    const { version, edition } = state.value;
    const last = this.#kept;
    if (last !== null && last.version === version) {
      const atlas = await last.atlas;
      // Another edition that says the same: only what it is called is another, and what others keep by this object stands.
      if (atlas.data.edition !== edition) (atlas.data as { edition: string }).edition = edition;
      return atlas;
    }
    const atlas = this.#broughtUpToDate(last?.atlas ?? null).then((compiled) => {
      this.#onRead?.(compiled.data);
      return compiled;
    });
    const kept = { version, atlas };
    this.#kept = kept;
    // A reading that failed is not kept: the next question tries again.
    atlas.catch(() => {
      if (this.#kept === kept) this.#kept = null;
    });
    return atlas;
  }

  /** From what was compiled last, where few things changed since; else from all of it. */
  async #broughtUpToDate(last: Promise<CompiledAtlas> | null): Promise<CompiledAtlas> {
    const earlier = await last?.catch(() => null);
    const changed = earlier == null ? null : await this.#store.atlas.readSince(earlier.data);
    return earlier != null && changed !== null
      ? recompileAtlas(earlier, changed)
      : compileAtlas(await this.#store.atlas.read(), this.#pulse);
  }

  /** A sheet held against the atlas of now, without going to the disk for it; or what the atlas does not know of it, as `Store.checkSheet` says it. */
  async holding(sheet: Sheet): Promise<Outcome<{ readonly atlas: CompiledAtlas; readonly sheet: Sheet }>> {
    const atlas = await this.now();
    const checked = checkSheet(sheet, knownIn(atlas));
    return checked.ok ? { ok: true, value: { atlas, sheet: checked.value } } : checked;
  }
}

/** Another one whenever another atlas is reasoned over, or the same is called otherwise. */
export const editionOf = async (store: Store): Promise<string> => {
  const state = await store.atlas.state();
  if (!state.ok) throw new TroubleError(state.trouble);
  return `${state.value.edition} ${state.value.version}`;
};

/** What a sheet is held against, without going to the disk. */
export const knownIn = (atlas: CompiledAtlas): KnownToAtlas => ({
  slot: (id) => atlas.slots[atlas.slotNumber.get(id) ?? -1]?.data,
  feature: (id) => atlas.features.get(id),
  part: (id) => atlas.parts.get(id),
  maker: (id) => atlas.makers.get(id),
  slipOf,
});
