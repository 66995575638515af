import type { FeatureId, FeatureKind, SlotDrawing } from '../../reasoner/index.ts';
import { drawingRoles } from '../atlas/schemas.ts';
import type { At, Faults } from '../read/faults.ts';
import { featureOf } from './check-shop.ts';
import type { Lookups } from './lookups.ts';

/** Features of the drawing's slot, each of the kind its role needs. */
export const checkDrawing = ({ slot, drawing, feeds }: SlotDrawing, at: At, find: Lookups, faults: Faults): void => {
  const kinds: Readonly<Record<string, FeatureKind>> = drawingRoles[drawing];
  for (const [role, id] of Object.entries<FeatureId>(feeds))
    featureOf(find, faults, id, slot, [kinds[role] as FeatureKind], at(['feeds', role]));
};
