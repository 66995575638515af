import type { Sheet } from '../../reasoner/index.ts';

/** The sheet as the reasoner is asked about it. Title, story, serial number, notes and names of instruments have no say: typing in them asks nothing anew. */
export const whatMatters = ({ serial: _serial, ...sheet }: Sheet): Sheet => ({
  ...sheet,
  title: '',
  story: '',
  observations: sheet.observations.map(({ note: _, instrument: __, ...observation }) => observation),
});
