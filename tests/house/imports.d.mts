export interface FoundImport {
  readonly specifier: string;
  readonly typesOnly: boolean;
  readonly line: number;
}
export declare const house: Readonly<Record<string, { readonly values: readonly string[]; readonly types: readonly string[] }>>;
export declare const importsOf: (file: string, text: string) => FoundImport[];
export declare const forbiddenImports: (file: string, text: string) => string[];
/** By room, its folders and single files from the ground up. */
export declare const floors: Readonly<Record<string, readonly string[]>>;
export declare const arrowsUp: (file: string, text: string) => string[];
export declare const circles: (sources: ReadonlyMap<string, string>) => string[];
export declare const forbiddenBelow: (root: string) => string[];
