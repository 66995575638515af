import { type KeyboardEvent, type RefObject, useId, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { sayWhole } from '../values/figures.ts';
import { drawnAround } from './drawnAround.ts';
import { type Landmark, landmark } from './landmarks.ts';
import { type Findable, matching } from './matching.ts';

export interface ComboItem<T> extends Findable {
  readonly key: string;
  readonly value: T;
}

interface Props<T> {
  readonly label: string;
  readonly placeholder?: string;
  readonly items: readonly ComboItem<T>[];
  /** Items already filtered by whoever asked for them (a search of the desk) are shown as they come. */
  readonly filtered?: boolean;
  /** What was typed last is still being looked for, and the items are those of an older text. Enter then takes the first of what is found. */
  readonly searching?: boolean;
  readonly none?: string;
  readonly input?: RefObject<HTMLInputElement | null>;
  readonly className?: string;
  readonly landmark?: Landmark;
  onPick(value: T): void;
  onType?(text: string): void;
  /** Arrow up or down in an empty, closed box. */
  onArrowAway?(direction: 1 | -1): void;
  /** Any other key in a closed, empty box; return true when it was used. */
  onEmptyKey?(key: string): boolean;
}

/**
 * A type-ahead after the WAI-ARIA combobox pattern (list autocomplete): typing opens the list with its first entry
 * ready, Enter takes it, Escape closes and then clears, Alt+Down shows everything. Focus never leaves the box.
 */
export function Combobox<T>(props: Props<T>) {
  const [text, setText] = useState('');
  const [open, setOpen] = useState(false);
  const [active, setActive] = useState(0);
  const [wanted, setWanted] = useState(false);
  const own = useRef<HTMLInputElement>(null);
  const input = props.input ?? own;
  const list = useRef<HTMLDivElement>(null);
  const id = useId();
  // Closed, nothing of it is looked at.
  const shown = useMemo(
    () => (props.filtered || !(open || wanted) ? props.items : matching(props.items, text)),
    [props.filtered, props.items, text, open, wanted],
  );
  const at = Math.min(active, shown.length - 1);
  const drawn = drawnAround(at, shown.length);

  useLayoutEffect(() => {
    if (!open) return;
    const place = () => placeUnder(input.current, list.current);
    place();
    window.addEventListener('resize', place);
    window.addEventListener('scroll', place, true);
    return () => {
      window.removeEventListener('resize', place);
      window.removeEventListener('scroll', place, true);
    };
  });
  useLayoutEffect(() => {
    if (open) list.current?.querySelector('[aria-selected="true"]')?.scrollIntoView({ block: 'nearest' });
  });

  const write = (next: string) => {
    setText(next);
    props.onType?.(next);
    setActive(0);
    setWanted(false);
  };
  const pick = (item: ComboItem<T> | undefined) => {
    if (item === undefined) return;
    write('');
    setOpen(false);
    props.onPick(item.value);
  };
  // What is found after Enter was pressed is taken as soon as it is there, also where somebody has gone on to the next box.
  useLayoutEffect(() => {
    if (!wanted || props.searching === true) return;
    setWanted(false);
    pick(shown[0]);
  });
  const onKeyDown = (event: KeyboardEvent) => {
    const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
    if (step !== 0) {
      event.preventDefault();
      if (open && shown.length > 0) setActive((at + step + shown.length) % shown.length);
      else if (event.altKey || text !== '' || props.onArrowAway === undefined) setOpen(true);
      else props.onArrowAway(step);
    } else if (event.key === 'Enter' && open && props.searching === true && active === 0) {
      event.preventDefault();
      setWanted(true);
    } else if (event.key === 'Enter' && open && shown.length > 0) {
      event.preventDefault();
      pick(shown[at]);
    } else if (event.key === 'Escape' && (open || text !== '')) {
      event.preventDefault();
      event.stopPropagation();
      setWanted(false);
      if (open) setOpen(false);
      else write('');
    } else if (!open && text === '' && props.onEmptyKey?.(event.key)) {
      event.preventDefault();
    }
  };

  return (
    <div className={`combo ${props.className ?? ''}`} {...(props.landmark === undefined ? {} : landmark(props.landmark))}>
      <input
        ref={input}
        className="field"
        type="text"
        role="combobox"
        aria-label={props.label}
        aria-expanded={open && shown.length > 0}
        aria-controls={open && shown.length > 0 ? `${id}-list` : undefined}
        aria-autocomplete="list"
        aria-activedescendant={open && shown[at] !== undefined ? `${id}-${shown[at].key}` : undefined}
        autoComplete="off"
        spellCheck={false}
        placeholder={props.placeholder}
        value={text}
        onChange={(event) => {
          write(event.target.value);
          setOpen(event.target.value !== '');
        }}
        onKeyDown={onKeyDown}
        onClick={() => setOpen(true)}
        onBlur={() => setOpen(false)}
      />
      {open && (
        <div ref={list} className="combo-list">
          {shown.length > 0 ? (
            <div id={`${id}-list`} role="listbox" aria-label={props.label}>
              {shown.slice(drawn.from, drawn.to).map((item, place) => (
                // biome-ignore lint/a11y/useKeyWithClickEvents: the keys are handled in the box, which keeps the focus.
                <div
                  key={item.key}
                  id={`${id}-${item.key}`}
                  role="option"
                  aria-selected={drawn.from + place === at}
                  aria-setsize={shown.length}
                  aria-posinset={drawn.from + place + 1}
                  tabIndex={-1}
                  onMouseDown={(event) => event.preventDefault()}
                  onMouseMove={() => setActive(drawn.from + place)}
                  onClick={() => pick(item)}
                >
                  <span>{item.text}</span>
                  {item.detail !== undefined && <span className="detail">{item.detail}</span>}
                </div>
              ))}
            </div>
          ) : (
            <p className="combo-none" role="status">
              {props.none ?? 'Nothing by that name.'}
            </p>
          )}
          {drawn.to < shown.length && <p className="combo-none">{sayWhole(shown.length - drawn.to)} more: type on, or go down.</p>}
        </div>
      )}
    </div>
  );
}

/** Puts the list under the box, or over it where there is more room; fixed, so that no scrolled column cuts it off. */
function placeUnder(box: HTMLElement | null, list: HTMLElement | null): void {
  if (box === null || list === null) return;
  const at = box.getBoundingClientRect();
  const below = window.innerHeight - at.bottom - 10;
  const above = at.top - 10;
  const up = below < 160 && above > below;
  list.style.minWidth = `${at.width}px`;
  list.style.maxWidth = `${Math.max(at.width, Math.min(460, window.innerWidth - at.left - 12))}px`;
  list.style.maxHeight = `${Math.min(320, up ? above : below)}px`;
  list.style.left = `${at.left}px`;
  list.style.top = up ? 'auto' : `${at.bottom + 3}px`;
  list.style.bottom = up ? `${window.innerHeight - at.top + 3}px` : 'auto';
}
