/** A value of a row; `undefined` where it cannot be read. */
export type Value = null | number | string | Buffer | undefined;

/** A whole number of one to nine bytes, the high ones first (§1.6); NaN past what a number holds exactly. Null where the bytes end before it does. */
export const varint = (bytes: Buffer, at: number): { readonly value: number; readonly next: number } | null => {
  let value = 0;
  for (let n = 0; n < 9; n += 1) {
    const byte = bytes[at + n];
    if (byte === undefined) return null;
    value = n === 8 ? value * 256 + byte : value * 128 + (byte & 0x7f);
    if (n === 8 || byte < 0x80) return { value: Number.isSafeInteger(value) ? value : Number.NaN, next: at + n + 1 };
  }
  return null;
};

/** The length of a value by its serial type (§2.1); null for those that are not in use. */
const lengthOf = (type: number): number | null => {
  if (type >= 12) return Math.floor((type - 12) / 2);
  return [0, 1, 2, 3, 4, 6, 8, 8, 0, 0][type] ?? null;
};

const strictly = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

/** Text with a zero in it was never saved by this program: where one stands, a page was wiped. */
const textIn = (bytes: Buffer): string | undefined => {
  try {
    const text = strictly.decode(bytes);
    return text.includes('\0') ? undefined : text;
  } catch {
    return undefined;
  }
};

const readValue = (type: number, bytes: Buffer): Value => {
  switch (type) {
    case 0:
      return null;
    case 1:
    case 2:
    case 3:
    case 4:
    case 5:
      return bytes.readIntBE(0, bytes.length);
    case 6: {
      const whole = Number(bytes.readBigInt64BE(0));
      return Number.isSafeInteger(whole) ? whole : undefined;
    }
    case 7: {
      const real = bytes.readDoubleBE(0);
      return Number.isNaN(real) ? undefined : real;
    }
    case 8:
      return 0;
    case 9:
      return 1;
    default:
      return type % 2 === 0 ? Buffer.from(bytes) : textIn(bytes);
  }
};

/**
 * The values of a record (§2.1), in the order they are stored in; null where its head does not hang together.
 * @param payload its bytes, as many as could be had
 * @param length how many there should be
 */
export const valuesIn = (payload: Buffer, length: number): readonly Value[] | null => {
  const head = varint(payload, 0);
  if (head === null || !(head.value >= head.next && head.value <= Math.min(length, payload.length))) return null;
  const types: number[] = [];
  for (let at = head.next; at < head.value; ) {
    const type = varint(payload, at);
    if (type === null || type.next > head.value) return null;
    types.push(type.value);
    at = type.next;
  }
  let at = head.value;
  const values: Value[] = [];
  for (const type of types) {
    const size = Number.isNaN(type) ? null : lengthOf(type);
    if (size === null) return null;
    values.push(at + size > payload.length ? undefined : readValue(type, payload.subarray(at, at + size)));
    at += size;
  }
  return at === length ? values : null;
};
