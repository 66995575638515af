import { useContext, useId, useRef } from 'react';
import type { Shape } from '../../electron/bridge/edit-calls.ts';
import { idFrom } from '../../reasoner/plain/id-from.ts';
import { withArticle } from '../../reasoner/plain/text.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { hrefOf } from '../route/route.ts';
import { choicesAt } from './choicesAt.ts';
import { FormContext, listAt, useFault } from './FormContext.ts';
import type { FieldProps } from './fieldProps.ts';
import { fieldWords, kindWords, listWords } from './fieldWords.ts';
import { isObject, type Json, type JsonObject, type Path, withField } from './json.ts';
import { ListField } from './ListField.tsx';
import { NumberField } from './NumberField.tsx';
import { RefField } from './RefField.tsx';
import { blankFields, blankOf, givenAs, known, simple } from './shapes.ts';
import { TableField } from './TableField.tsx';

/** One field of an entry, as its shape asks: its name, what is given, what is wrong with it, and what is in it where it has parts of its own. */
export function FormField(props: FieldProps) {
  const { list, references } = useContext(FormContext);
  const { label, hint, empty } = fieldWords(list, props.path);
  const fault = useFault(props.path);
  const id = useId();
  const { shape, orNotKnown } = known(props.shape);
  const given = givenAs(shape);
  // A way may lead to an id in one kind of thing and to something else in another: the sides of a joint’s rules.
  const of = given.as === 'text' ? listAt(references, props.path) : null;
  const whole = of === null && !['text', 'number', 'one of', 'said or not', 'yes or no'].includes(given.as);
  const note =
    fault === null ? null : (
      <span className="field-fault" id={`${id}-fault`} role="status">
        {fault}
      </span>
    );
  // Lines of one text each stand beside their name, as a single text would.
  if (whole && given.as === 'list' && simple(given.of)) {
    return (
      <div className="edit-field">
        <span>{label}</span>
        {/* biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be laid out as a line of the form. */}
        <div className="edit-given lines" role="group" aria-label={label}>
          <Whole {...props} shape={shape} orNotKnown={orNotKnown} label={label} />
          {note}
          {hint !== undefined && <span className="small soft">{hint}</span>}
        </div>
      </div>
    );
  }
  if (whole) {
    return (
      <fieldset className={props.bare ? 'edit-group bare' : 'edit-group'}>
        <legend className={props.bare ? 'unseen' : undefined}>{props.bare ? `${label} ${Number(props.path.at(-1)) + 1}` : label}</legend>
        {hint !== undefined && <p className="small soft">{hint}</p>}
        {note}
        <Whole {...props} shape={shape} orNotKnown={orNotKnown} label={label} />
      </fieldset>
    );
  }
  if (given.as === 'yes or no' || given.as === 'said or not') {
    return (
      <div className="edit-field check">
        <label>
          <input
            type="checkbox"
            checked={props.value === true}
            onChange={({ target }) => props.onChange(target.checked ? true : given.as === 'said or not' ? undefined : false)}
          />{' '}
          {label}
        </label>
        {note}
      </div>
    );
  }
  return (
    <div className={props.bare ? 'edit-field bare' : 'edit-field'}>
      <label htmlFor={id} className={props.bare ? 'unseen' : undefined}>
        {label}
      </label>
      <div className="edit-given">
        {of === null ? (
          <Given {...props} shape={shape} orNotKnown={orNotKnown} id={id} label={label} wrong={fault !== null} saysNothing={empty} />
        ) : (
          <RefField
            label={label}
            list={of}
            value={typeof props.value === 'string' ? props.value : null}
            none={orNotKnown || props.mayLack ? 'none' : 'type a name'}
            onPick={props.onChange}
            {...(orNotKnown || props.mayLack ? { onClear: () => props.onChange(orNotKnown ? null : undefined) } : {})}
          />
        )}
        {of !== null && !orNotKnown && !props.mayLack && !props.value && (
          <a className="small" href={hrefOf({ screen: 'edit', place: { at: 'new', list: of, like: null } })}>
            add {withArticle(listWords[of]?.one ?? of)}
          </a>
        )}
        {note}
        {hint !== undefined && <span className="small soft">{hint}</span>}
        {props.path.at(-1) === 'before' && typeof props.value === 'string' && (
          <span className="small">{/^\s+$/.test(props.value) ? 'Here: a space.' : props.value === '' ? 'Here: nothing.' : ''}</span>
        )}
      </div>
    </div>
  );
}

interface GivenProps extends FieldProps {
  readonly orNotKnown: boolean;
  readonly label: string;
}

/** What goes on one line. */
function Given(props: GivenProps & { readonly id: string; readonly wrong: boolean; readonly saysNothing: string | undefined }) {
  const { shape, value, orNotKnown, mayLack, id, wrong, onChange } = props;
  const given = givenAs(shape);
  const { list, entry } = useContext(FormContext);
  const words = useWords();
  const empty = orNotKnown ? null : mayLack ? undefined : '';
  const wrongly = wrong ? ({ 'aria-invalid': true, 'aria-describedby': `${id}-fault` } as const) : {};
  switch (given.as) {
    case 'number':
      return (
        <NumberField
          id={id}
          value={value}
          empty={orNotKnown ? null : undefined}
          placeholder={props.saysNothing ?? (orNotKnown ? 'not known' : '')}
          onChange={onChange}
          {...wrongly}
        />
      );
    case 'one of':
      return (
        <select
          id={id}
          className="field"
          value={value === null || value === undefined ? '' : String(value)}
          onChange={({ target }) =>
            onChange(target.value === '' ? (orNotKnown ? null : undefined) : given.values.find((one) => String(one) === target.value))
          }
          {...wrongly}
        >
          <option value="">{orNotKnown ? 'not known' : mayLack ? 'nothing said' : 'pick one'}</option>
          {given.values.map((one) => (
            <option key={String(one)} value={String(one)}>
              {String(one)}
            </option>
          ))}
        </select>
      );
    default: {
      const choices = choicesAt(words, list, entry, props.path);
      if (choices !== null) {
        return (
          <select id={id} className="field" value={String(value ?? '')} onChange={({ target }) => onChange(target.value)} {...wrongly}>
            <option value="">pick one</option>
            {choices.map((choice) => (
              <option key={choice.id} value={choice.id}>
                {choice.name}
              </option>
            ))}
          </select>
        );
      }
      const text = typeof value === 'string' ? value : '';
      const write = (next: string) => onChange(next === '' ? empty : next);
      const said = { id, className: 'field', value: text, placeholder: orNotKnown ? 'not known' : mayLack ? 'nothing said' : '' };
      return text.length > 60 || longFields.has(String(props.path.at(-1))) ? (
        <textarea {...said} rows={3} onChange={({ target }) => write(target.value.replace(/\n/g, ' '))} {...wrongly} />
      ) : (
        <input {...said} type="text" autoComplete="off" spellCheck={false} onChange={({ target }) => write(target.value)} {...wrongly} />
      );
    }
  }
}
const longFields: ReadonlySet<string> = new Set(['about', 'short', 'more', 'sentence', 'because', 'basis', 'look']);

/** What has parts of its own. */
function Whole(props: GivenProps) {
  const { list } = useContext(FormContext);
  const { shape, value, orNotKnown, mayLack, path, label, onChange } = props;
  const given = givenAs(shape);
  if (given.as === 'list') return <ListField {...props} Field={FormField} of={given.of} empty={mayLack && (shape.minItems ?? 0) > 0} />;
  if (value === undefined || value === null) {
    return (
      <p>
        <span className="soft">{orNotKnown ? 'Nothing is known of it.' : 'Nothing is said of it.'}</span>{' '}
        <button
          type="button"
          className="button plain"
          onClick={({ currentTarget }) => {
            onChange(blankOf(shape));
            goInto(currentTarget);
          }}
        >
          Say it
        </button>
      </p>
    );
  }
  const takeAway = (orNotKnown || mayLack) && (
    <button
      type="button"
      className="button bare"
      aria-label={`${label}: say nothing of it`}
      onClick={({ currentTarget }) => {
        onChange(orNotKnown ? null : undefined);
        goInto(currentTarget);
      }}
    >
      Say nothing of it
    </button>
  );
  const of = isObject(value) ? value : {};
  if (given.as === 'table') return <TableField {...props} Field={FormField} of={given.of} value={of} />;
  if (given.as === 'kinds' || given.as === 'shapes') {
    const kind = given.as === 'kinds' ? String(of[given.tag] ?? '') : ([...given.shapes.keys()].find((key) => key in of) ?? '');
    const inner = given.shapes.get(kind);
    return (
      <>
        <p className="edit-kind">
          <label>
            <span className="unseen">{label}: kind </span>
            <select
              className="field"
              value={kind}
              onChange={({ target }) => onChange(blankFields(given.shapes.get(target.value) ?? {}, of))}
            >
              {[...given.shapes.keys()].map((one) => (
                <option key={one} value={one}>
                  {given.as === 'kinds' ? kindWords(list, path, one) : fieldWords('', [...path, one]).label}
                </option>
              ))}
            </select>
          </label>
          {takeAway}
        </p>
        {inner !== undefined && (
          <Fields shape={inner} path={path} value={of} but={given.as === 'kinds' ? [given.tag] : []} onChange={onChange} />
        )}
      </>
    );
  }
  return (
    <div className={Object.values(shape.properties ?? {}).every(simple) ? 'edit-short' : undefined}>
      <Fields shape={shape} path={path} value={of} onChange={onChange} />
      {takeAway}
    </div>
  );
}

/** A button that goes as it is pressed leaves the focus at the first thing to be given where it stood. */
const goInto = (button: HTMLElement): void => {
  const home = button.closest('fieldset, [role="group"]');
  setTimeout(() => home?.querySelector<HTMLElement>('input, select, textarea, button')?.focus());
};

/** The fields of an entry; where its list holds several kinds of things, that of this one first. */
export function EntryFields(props: { readonly shape: Shape; readonly value: JsonObject; onChange(value: JsonObject): void }) {
  const { list } = useContext(FormContext);
  const { shape, value, onChange } = props;
  const given = givenAs(shape);
  const id = useId();
  if (given.as !== 'kinds') return <Fields shape={shape} path={[]} value={value} but={['id']} onChange={onChange} />;
  const kind = String(value[given.tag] ?? '');
  return (
    <>
      <div className="edit-field">
        <label htmlFor={id}>{fieldWords(list, [given.tag]).label}</label>
        <div className="edit-given">
          <select
            id={id}
            className="field"
            value={kind}
            onChange={({ target }) => onChange(blankFields(given.shapes.get(target.value) ?? {}, value))}
          >
            {[...given.shapes.keys()].map((one) => (
              <option key={one} value={one}>
                {kindWords(list, [], one)}
              </option>
            ))}
          </select>
        </div>
      </div>
      <Fields shape={given.shapes.get(kind) ?? {}} path={[]} value={value} but={['id', given.tag]} onChange={onChange} />
    </>
  );
}

/** The fields of an object, in the order of its shape; its short name after the name it is made of. */
export function Fields(props: {
  readonly shape: Shape;
  readonly path: Path;
  readonly value: JsonObject;
  readonly but?: readonly string[];
  onChange(value: JsonObject): void;
}) {
  const { shape, path, value, but = [], onChange } = props;
  // The short name of a line follows its name as long as nobody has given it one.
  const made = useRef('');
  const set = (field: string, next: Json | undefined) => {
    const entry = withField(value, field, next);
    if (field !== 'name' || path.length === 0 || typeof next !== 'string' || (value.id !== '' && value.id !== made.current))
      return onChange(entry);
    made.current = idFrom(next);
    onChange({ ...entry, id: made.current });
  };
  return (
    <>
      {inOrder(shape).map(([field, inner]) =>
        but.includes(field) ? null : (
          <FormField
            key={field}
            shape={inner}
            path={[...path, field]}
            value={value[field]}
            mayLack={shape.required?.includes(field) !== true}
            onChange={(next) => set(field, next)}
          />
        ),
      )}
    </>
  );
}

const inOrder = ({ properties = {} }: Shape): readonly (readonly [string, Shape])[] => {
  const { id, name, ...rest } = properties;
  return [
    ...(name === undefined ? [] : [['name', name] as const]),
    ...(id === undefined ? [] : [['id', id] as const]),
    ...Object.entries(rest),
  ];
};
