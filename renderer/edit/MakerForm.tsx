import { useState } from 'react';
import type { EntryForm, MakerReads } from '../../electron/bridge/edit-calls.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { Fields } from './FormField.tsx';
import type { JsonObject } from './json.ts';

/** A maker: its names and its rule of the plate, then how it builds names and numbers, with a text to try them on. */
export function MakerForm({
  form,
  entry,
  onChange,
}: {
  readonly form: EntryForm;
  readonly entry: JsonObject;
  onChange(entry: JsonObject): void;
}) {
  return (
    <>
      <Fields shape={form.shape} path={[]} value={entry} but={['id', 'grammar', 'numbering']} onChange={onChange} />
      <TryText entry={entry} />
      <Fields
        shape={form.shape}
        path={[]}
        value={entry}
        but={Object.keys(form.shape.properties ?? {}).filter((field) => field !== 'grammar' && field !== 'numbering')}
        onChange={onChange}
      />
    </>
  );
}

/** What a text reads as by the rules as they stand in the form, saved or not. */
function TryText({ entry }: { readonly entry: JsonObject }) {
  const [text, setText] = useState('');
  const maker = { ...entry, id: entry.id === '' ? 'new' : entry.id, name: entry.name === '' ? 'new' : entry.name };
  const asked = useAsk('edit.reads', text.trim() === '' ? null : { maker, text }, 100);
  const reads = latest(asked);
  return (
    <section className="edit-try" aria-label="Try a name or a number">
      <label>
        <span className="head">Try a name or a number</span>{' '}
        <input
          className="field"
          type="text"
          autoComplete="off"
          spellCheck={false}
          maxLength={200}
          placeholder="a name without the maker, or a number"
          value={text}
          onChange={({ target }) => setText(target.value)}
        />
      </label>
      <div role="status">
        {text.trim() !== '' &&
          (asked.state === 'trouble' ? (
            <p className="soft">{asked.trouble.sentence}</p>
          ) : (
            reads !== null && <ReadsAs reads={reads} entry={entry} />
          ))}
      </div>
    </section>
  );
}

function ReadsAs({ reads: { name, numbers, patterns }, entry }: { readonly reads: MakerReads; readonly entry: JsonObject }) {
  const words = useWords();
  return (
    <>
      <p>
        As a name:{' '}
        {name === null
          ? 'there is no rule to read it by.'
          : name.faults.length > 0
            ? `it is not one of this maker’s, for ${name.faults.join('; and ')}.`
            : `${name.pieces.map(({ token, text }) => `${text} (${token})`).join(', ')}. ${
                name.model === null ? 'It is well formed; the atlas lists no model under it.' : `The atlas lists it: ${name.model}.`
              }`}
      </p>
      <p>
        As a number:{' '}
        {numbers.length === 0
          ? patterns === 0
            ? 'there is no pattern to read it by.'
            : patterns === 1
              ? 'the one pattern there is does not fit it.'
              : `none of the ${patterns} patterns fits it.`
          : numbers
              .map(({ pattern, pieces, slot, made, month, check }) => {
                const says = [
                  ...(slot === null ? [] : [`for the ${words.slotName(slot)}`]),
                  ...(made.from === null && made.to === null
                    ? []
                    : [
                        `made ${made.from === made.to ? `in ${made.from}` : `from ${made.from ?? 'a year not known'} to ${made.to ?? 'today'}`}`,
                      ]),
                  ...(month === null ? [] : [`in month ${month}`]),
                  ...(check === null
                    ? []
                    : [
                        check.stamped === check.wanted
                          ? 'its check digit is right'
                          : `its check digit is ${check.stamped}, and should be ${check.wanted}`,
                      ]),
                ];
                return `${pattern}: ${pieces.map(({ piece, text }) => `${text} (${piece})`).join(', ')}${says.length === 0 ? '' : `; ${says.join(', ')}`}.`;
              })
              .join(' ')}
      </p>
      {String(entry.name ?? '') === '' && <p className="small soft">The maker has no name yet.</p>}
    </>
  );
}
