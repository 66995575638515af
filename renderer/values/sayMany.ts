/** `3 photographs`. */
export const sayMany = (many: number, one: string, more = `${one}s`): string => `${many} ${many === 1 ? one : more}`;
