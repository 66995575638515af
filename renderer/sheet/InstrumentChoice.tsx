import type { Instrument } from '../../reasoner/index.ts';

interface Props {
  readonly instruments: readonly Instrument[];
  /** The one chosen, by name; empty for none. A sheet may name one this atlas does not have. */
  readonly named: string;
  /** `u` is the instrument's standard uncertainty in its unit, null where no instrument says one. */
  onNamed(name: string, u: number | null): void;
}

/** What it is measured with. Choosing one takes its uncertainty, which stays free to be changed. */
export function InstrumentChoice({ instruments, named, onNamed }: Props) {
  if (instruments.length === 0 && named === '') return null;
  const known = instruments.some(({ name }) => name === named);
  return (
    <select
      className="field instrument"
      aria-label="Measured with"
      value={named}
      onChange={(event) => onNamed(event.target.value, instruments.find(({ name }) => name === event.target.value)?.u ?? null)}
    >
      <option value="">no instrument named</option>
      {!known && named !== '' && <option value={named}>{named}</option>}
      {instruments.map(({ id, name }) => (
        <option key={id} value={name}>
          {name}
        </option>
      ))}
    </select>
  );
}
