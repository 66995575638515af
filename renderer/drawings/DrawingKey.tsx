import './drawings.css';

const looks = [
  { look: 'edge', means: 'size or count from the atlas' },
  { look: 'fine', means: 'to read the drawing by, no size behind it' },
  { look: 'guess', means: 'not known' },
] as const;

/** What the kinds of line mean; once for all drawings of a page. */
export function DrawingKey() {
  return (
    <p className="drawing-key">
      {looks.map(({ look, means }) => (
        <span key={look}>
          <svg className="scene" viewBox="0 0 26 6" width="26" height="6" aria-hidden="true">
            <line className={`is-${look}`} x1="1" x2="25" y1="3" y2="3" />
          </svg>
          {means}
        </span>
      ))}
      <span>Computed from dimensions, not traced.</span>
    </p>
  );
}
