/** Why the system does not give a file or folder to be read, to stand after a colon. */
export const whyNotRead = (error: unknown): string => {
  switch (codeOf(error)) {
    case 'ENOENT':
      return 'there is no such file';
    case 'EACCES':
    case 'EPERM':
      return 'it may not be read';
    case 'EISDIR':
      return 'it is a folder';
    case 'ENOTDIR':
      return 'one of the folders it is in is a file';
    default:
      return messageOf(error);
  }
};

/** Why the system does not take a file or folder that is written, to stand after a colon. */
export const whyNotWritten = (error: unknown): string => {
  switch (codeOf(error)) {
    case 'ENOENT':
      return 'there is no such folder';
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return 'nothing may be written there';
    case 'EEXIST':
    case 'ENOTEMPTY':
      return 'something of that name is there already';
    case 'EISDIR':
      return 'a folder of that name is there';
    case 'ENOTDIR':
      return 'one of the folders it is to be in is a file';
    case 'ENOSPC':
    case 'EDQUOT':
      return 'there is no room left on the disk';
    default:
      return messageOf(error);
  }
};

const codeOf = (error: unknown): string | undefined => (error as NodeJS.ErrnoException | null)?.code;

const messageOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
