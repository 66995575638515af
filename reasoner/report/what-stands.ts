import type { NameAnswer, Verdict } from '../answer/verdict.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import { capital, closing, list } from '../plain/text.ts';
import { line, type ReportLine, type ReportReason } from './report.ts';

/** The honest names; where none stands for the whole, that is said, with what single parts are. */
export const whatStands = (atlas: CompiledAtlas, verdict: Verdict): ReportLine[] => {
  const honest = verdict.honest.map((id) => verdict.names.find(({ name }) => name.id === id) as NameAnswer);
  const lines = honest.map(({ name }): ReportLine => {
    const because: ReportReason[] = [{ kind: 'name', name: name.id }];
    if (name.rung === 'parts') return line('No name stands for the whole: it is a turbocharger made up of parts.', because);
    const claimed = verdict.claim?.status === 'stands' && name.models.length === 1 && name.models[0] === verdict.claim.reading.model;
    return claimed
      ? line(verdict.claim?.sentences[0] ?? name.text, [...because, { kind: 'claim' }])
      : line(
          `${capital(name.text)}${closing(name.text)} stands: in every slot that makes the name, only parts listed for it agree with what was seen.`,
          because,
        );
  });
  return [...lines, ...partLines(verdict), ...doubtLine(atlas, verdict)];
};

/** The ticket's own clauses about single parts: a maker's name stays with the part it belongs to (N5). */
const partLines = (verdict: Verdict): ReportLine[] => {
  const clauses = verdict.ticket.may
    .map((clause, index) => ({ ...clause, index }))
    .filter(({ because }) => because.length > 0 && because.every(({ kind }) => kind === 'observation'));
  if (clauses.length === 0) return [];
  return [
    line(
      clauses.map(({ text }) => text).join(' '),
      clauses.map(({ index }) => ({ kind: 'ticket', text: 'may', index })),
    ),
  ];
};

const doubtLine = (atlas: CompiledAtlas, verdict: Verdict): ReportLine[] => {
  const doubtful = verdict.slots.filter((slot) => slot.doubtful && !slot.absent);
  if (doubtful.length === 0) return [];
  const names = list(doubtful.map(({ slot }) => slotNameOf(atlas, slot)));
  return [
    line(
      `The ${names} may be ${doubtful.length === 1 ? 'a part' : 'parts'} the atlas does not list, or an entry there is wrong.`,
      doubtful.map(({ slot }) => ({ kind: 'slot', slot })),
    ),
  ];
};
