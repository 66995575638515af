import type { Role } from '../../../reasoner/index.ts';
import type { Allowance, PartDraft } from './draft.ts';

/**
 * Collects the parts of one chapter. A part shared by several models is put on the shelf by each of them;
 * putting a different part under the same id is a slip of the maker's and throws.
 */
export class Shelf {
  readonly #parts = new Map<string, PartDraft>();
  readonly #allowed: Allowance[] = [];

  get parts(): readonly PartDraft[] {
    return [...this.#parts.values()];
  }

  get allowed(): readonly Allowance[] {
    return this.#allowed;
  }

  put(part: PartDraft): PartDraft {
    const there = this.#parts.get(part.id);
    if (there === undefined) this.#parts.set(part.id, part);
    else if (JSON.stringify(there) !== JSON.stringify(part)) throw new Error(`two different parts are called ${part.id}`);
    return part;
  }

  /** Lists parts as allowed in a model, in their own slots. A part already listed there is a slip and throws. */
  allow(model: string, role: Role, ...parts: readonly PartDraft[]): void {
    for (const part of parts) {
      this.put(part);
      if (this.#allowed.some((each) => each.model === model && each.part === part.id))
        throw new Error(`${part.id} is listed twice for ${model}`);
      this.#allowed.push({ model, slot: part.slot, part: part.id, role });
    }
  }
}
