import type { FitVerdict } from '../../reasoner/index.ts';
import type { TroubleCode } from '../bridge/trouble-codes.ts';

/**
 * What the command line exits with. 0 to 4 are verdicts; the rest are failures, numbered as BSD's sysexits(3) numbers them,
 * so that a script can tell an answer from a mishap.
 */
export const exitCodes = {
  /** The claimed name stands, or no name was claimed and the verdict is printed; or the command did what it was asked. */
  stands: 0,
  /** The claimed (or asked) name is ruled out; a fit or a build will not fit; no build keeps to what was asked. */
  ruledOut: 1,
  /** The claimed (or asked) name is open: what was seen neither rules it out nor settles it; or a fit is not known. */
  open: 2,
  /** Observations contradict each other, so nothing was judged. */
  contradiction: 3,
  /** Of a fit or a build: it goes together after work, or once parts are measured and chosen. */
  afterWork: 4,
  /** The command line itself is wrong. */
  usage: 64,
  /** A pack or a sheet was read and has faults; each is named by file and place. */
  badInput: 65,
  /** A file or folder that was named is not there or cannot be read. */
  noInput: 66,
  /** A bug of ours. */
  bug: 70,
  /** The atlas file cannot be used: damaged, of a newer version, or no atlas. */
  badAtlas: 72,
  /** Something could not be written: a folder that exists, no room, no permission. */
  cannotWrite: 73,
  /** The atlas file is in use by another program, or was replaced while it was open; the same command may do later. */
  tryLater: 75,
  /** Stopped by whoever asked (Ctrl-C), as shells number it; what was answered until then is printed. */
  stopped: 130,
} as const;

export type ExitCode = (typeof exitCodes)[keyof typeof exitCodes];

/** What a command ends with, by the code of the trouble that ended it. The compiler asks for a row for every code there is. */
const exitOf: Readonly<Record<TroubleCode, ExitCode>> = {
  'already-begun': exitCodes.badInput,
  'atlas-changed': exitCodes.badInput,
  'atlas-missing': exitCodes.badAtlas,
  'atlas-moved': exitCodes.tryLater,
  'backup-failed': exitCodes.cannotWrite,
  'backup-unreadable': exitCodes.noInput,
  bug: exitCodes.badInput,
  cancelled: exitCodes.badInput,
  'cannot-write': exitCodes.cannotWrite,
  'case-file-invalid': exitCodes.badInput,
  'case-file-too-large': exitCodes.badInput,
  'case-file-unreadable': exitCodes.noInput,
  'case-is-here': exitCodes.badInput,
  'table-unreadable': exitCodes.badInput,
  'table-too-large': exitCodes.badInput,
  'changed-since': exitCodes.badInput,
  closing: exitCodes.badInput,
  contradiction: exitCodes.badInput,
  'data-folder': exitCodes.badInput,
  'database-cannot-open': exitCodes.badAtlas,
  'database-damaged': exitCodes.badAtlas,
  'database-foreign': exitCodes.badAtlas,
  'database-full': exitCodes.cannotWrite,
  'database-io': exitCodes.badAtlas,
  'database-locked': exitCodes.tryLater,
  'database-newer': exitCodes.badAtlas,
  'database-read-only': exitCodes.cannotWrite,
  'desk-stopped': exitCodes.badInput,
  'document-too-large': exitCodes.badInput,
  'document-unreadable': exitCodes.noInput,
  'documents-too-many': exitCodes.badInput,
  'drill-answered': exitCodes.badInput,
  'drill-changed': exitCodes.badInput,
  'drill-response': exitCodes.badInput,
  'key-cannot-write': exitCodes.cannotWrite,
  'key-exists': exitCodes.cannotWrite,
  'key-unreadable': exitCodes.noInput,
  malformed: exitCodes.badInput,
  'money-unsaid': exitCodes.badInput,
  'sample-unfit': exitCodes.badInput,
  'mend-unfinished': exitCodes.badAtlas,
  'no-joint': exitCodes.badInput,
  'no-packs': exitCodes.badInput,
  'no-such-call': exitCodes.badInput,
  'no-such-name': exitCodes.badInput,
  'no-such-part': exitCodes.badInput,
  'not-a-found-unit': exitCodes.badInput,
  'not-admitted': exitCodes.badInput,
  'not-comparable': exitCodes.badInput,
  'not-done': exitCodes.badInput,
  'not-found': exitCodes.noInput,
  'not-started': exitCodes.badInput,
  'nothing-given': exitCodes.badInput,
  'nothing-to-key': exitCodes.badInput,
  'pack-cannot-write': exitCodes.cannotWrite,
  'pack-clash': exitCodes.badInput,
  'pack-invalid': exitCodes.badInput,
  'pack-needed': exitCodes.badInput,
  'pack-disputed': exitCodes.badInput,
  'edit-invalid': exitCodes.badInput,
  'edit-unreadable': exitCodes.noInput,
  'undo-disputed': exitCodes.badInput,
  'pack-older': exitCodes.badInput,
  'pack-same-edition': exitCodes.badInput,
  'pack-signature': exitCodes.badInput,
  'pack-signer': exitCodes.badInput,
  'pack-too-large': exitCodes.badInput,
  'pack-unreadable': exitCodes.noInput,
  'photo-altered': exitCodes.badInput,
  'photo-damaged': exitCodes.badInput,
  'photo-too-large': exitCodes.badInput,
  'photo-unreadable': exitCodes.badInput,
  'photos-too-many': exitCodes.badInput,
  refused: exitCodes.badInput,
  'sheet-doubted': exitCodes.badInput,
  'sheet-invalid': exitCodes.badInput,
  'sheet-is-sample': exitCodes.badInput,
  'sheet-unknown': exitCodes.badInput,
  'sheet-unreadable': exitCodes.noInput,
  'stock-short': exitCodes.badInput,
  'stock-table-invalid': exitCodes.badInput,
  'subject-count': exitCodes.badInput,
  unreachable: exitCodes.badInput,
  unread: exitCodes.noInput,
  usage: exitCodes.usage,
};

/** The exit code of a trouble, by its code. */
export const exitCodeOf = (code: string): ExitCode => (exitOf as Readonly<Record<string, ExitCode>>)[code] ?? exitCodes.badInput;

/** The exit code of what goes together, or does not. */
export const exitOfFit = (verdict: FitVerdict): ExitCode => {
  switch (verdict) {
    case 'drops in':
      return exitCodes.stands;
    case 'after work':
      return exitCodes.afterWork;
    case 'will not fit':
      return exitCodes.ruledOut;
    case 'not known':
      return exitCodes.open;
  }
};
