import type { Report, ReportBlock, ReportSection } from '../../reasoner/index.ts';
import { signHere } from '../../reasoner/plain/sign-here.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { Letterhead } from '../look/Letterhead.tsx';
import { ReasonsDrawn } from './ReasonsDrawn.tsx';
import { ReportPhotographs } from './ReportPhotographs.tsx';

/** The document as a page: what the PDF says, in the same words and the same order. */
export function ReportPage({ report, state }: { readonly report: Report; readonly state: string }) {
  return (
    <article className="report" lang={report.language} aria-labelledby="report-title" data-state={state}>
      {report.letterhead !== undefined && <Letterhead />}
      <p className="head">{report.title}</p>
      <h1 id="report-title" className="report-title">
        {report.subtitle.text}
      </h1>
      <dl className="report-head">
        {report.head.map(({ label, line }) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{line.text}</dd>
          </div>
        ))}
      </dl>
      <div className="report-brief">
        {report.brief.map(({ text }) => (
          <p key={text}>{text}</p>
        ))}
      </div>
      {report.sections.map((section) => (
        <Section key={section.id} section={section} />
      ))}
      <div className="report-sign">
        {signHere.map((label) => (
          <p key={label} className="report-sign-line">
            {label}
          </p>
        ))}
      </div>
      <footer className="small soft">{report.foot.text}</footer>
    </article>
  );
}

function Section({ section: { id, heading, blocks } }: { readonly section: ReportSection }) {
  const tickets = blocks.filter((block) => block.kind === 'ticket');
  return (
    <section className={`report-section is-${id}`} aria-labelledby={`report-${id}`}>
      <h2 id={`report-${id}`}>{heading}</h2>
      {blocks.map((block, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a report's blocks have no other identity, and nothing in them keeps a state.
        <Block key={index} block={block} />
      ))}
      {tickets.length > 0 && (
        <div className="report-tickets">
          {tickets.map(({ title, lines }) => (
            <div key={title} className="report-ticket">
              <h3>{title}</h3>
              <ul className="report-list">
                {lines.map(({ text }) => (
                  <li key={text}>{text}</li>
                ))}
              </ul>
            </div>
          ))}
        </div>
      )}
    </section>
  );
}

function Block({ block }: { readonly block: ReportBlock }) {
  switch (block.kind) {
    case 'paragraph':
      return (
        <p className="report-words">
          <TermsText text={block.line.text} />
        </p>
      );
    case 'list': {
      const lines = block.lines.map(({ text }) => (
        <li key={text}>
          <TermsText text={text} />
        </li>
      ));
      return block.numbered ? <ol className="report-list is-numbered">{lines}</ol> : <ul className="report-list">{lines}</ul>;
    }
    case 'entries':
      return (
        <table className="report-entries">
          <tbody>
            {block.rows.map(({ head, lines }) => (
              <tr key={head}>
                <th scope="row">
                  <TermsText text={head} />
                </th>
                <td>{lines.map(({ text }) => text).join('; ')}</td>
              </tr>
            ))}
          </tbody>
        </table>
      );
    case 'graph':
      return (
        <figure className="report-graph">
          <ReasonsDrawn picture={block.picture} />
          <figcaption>{block.caption.text}</figcaption>
        </figure>
      );
    case 'photographs':
      return <ReportPhotographs photographs={block.photographs} />;
    // The two texts stand beside each other, after the rest.
    case 'ticket':
      return null;
  }
}
