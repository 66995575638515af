import type { Key, KeyPlace, KeyWay } from '../../reasoner/index.ts';
import { list } from '../../reasoner/plain/text.ts';
import { sayMinutes } from '../apart/sayMinutes.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';

/** The key itself: numbered places, each with its answers and where they lead. */
export function KeyPlaces({ answer }: { readonly answer: Key }) {
  const [made, ...rest] = answer.words;
  return (
    <>
      <section className="key-cautions" aria-label="Before anything is named by it">
        {answer.cautions.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </section>
      <p className="key-made">{made}</p>
      {answer.places.length === 0 ? (
        <p className="key-none">
          No check in this scope tells them apart: <b>{answer.labels.map(({ name }) => name).join(' or ')}</b>
        </p>
      ) : (
        <ol className="key-places" aria-label="Places of the key">
          {answer.places.map((place) => (
            <Place key={place.number} place={place} answer={answer} />
          ))}
        </ol>
      )}
      <footer className="key-notes">
        {rest.map((sentence) => (
          <p key={sentence} className="small">
            {sentence}
          </p>
        ))}
        <p className="small soft">Atlas {answer.edition}</p>
      </footer>
    </>
  );
}

function Place({ place, answer }: { readonly place: KeyPlace; readonly answer: Key }) {
  const words = useWords();
  const feature = words.feature(place.feature);
  return (
    <li className="key-place" id={`key-${place.number}`} tabIndex={-1} value={place.number}>
      {place.goOn.length > 0 && <p className="key-first">First: {place.goOn.map((stage) => words.stageName(stage)).join(', ')}</p>}
      <h2>
        <span className="key-number">{place.number}</span>
        <span>
          {feature === undefined ? place.feature : <TermsText text={`${words.slotName(feature.slot)}: ${feature.name}`} />}
          {feature?.instrument !== undefined && <span className="soft small"> {feature.instrument}</span>}
        </span>
        <span className="soft small key-minutes">{sayMinutes(place.minutes)}</span>
      </h2>
      <dl>
        {place.ways.map((way) => (
          <div key={way.answer}>
            <dt>{way.answer}</dt>
            <dd>
              <Leads leads={way.leads} answer={answer} />
            </dd>
          </div>
        ))}
      </dl>
    </li>
  );
}

function Leads({ leads, answer }: { readonly leads: KeyWay['leads']; readonly answer: Key }) {
  const words = useWords();
  if (leads.kind === 'end') {
    const names = leads.labels.map((label) => answer.labels[label]?.name ?? '');
    return (
      <>
        {names.length === 1 ? <b>{names[0]}</b> : <b className="key-several">{names.join(' or ')}</b>}
        {leads.ifOwn.length > 0 && (
          <span className="key-if soft small">
            {' '}
            if the {list(leads.ifOwn.map((slot) => words.slotName(slot)))} {leads.ifOwn.length === 1 ? 'is' : 'are'} its own
          </span>
        )}
      </>
    );
  }
  return (
    <button type="button" className="key-go" aria-label={`Go to ${leads.number}`} onClick={() => goToPlace(leads.number)}>
      {leads.number}
    </button>
  );
}

const goToPlace = (number: number): void => {
  const place = document.getElementById(`key-${number}`);
  place?.scrollIntoView({ block: 'center' });
  place?.focus({ preventScroll: true });
};
