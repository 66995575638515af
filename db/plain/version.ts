/** Which state of a thing was meant: the hash of its content, so that the same said twice is the same version wherever it was said. */
export type Version = string & { readonly version: unique symbol };
