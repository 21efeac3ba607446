import { UsageError } from '../errors.ts';

/** Codes of our own; the rest are the operating system's (`ENOSPC`, `EACCES`, ...). */
export type FolderErrorCode = 'OTHER_STUDY' | 'NOT_A_RESULT' | 'NEWER_FORMAT' | (string & {});

/** A result folder that cannot be used or written, printed in one line. */
export class FolderError extends UsageError {
  override name = 'FolderError';
  readonly code: FolderErrorCode;
  readonly folder: string;

  constructor(code: FolderErrorCode, folder: string, message: string, options?: ErrorOptions) {
    super(message, options);
    this.code = code;
    this.folder = folder;
  }
}

const WHY: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk quota is used up',
  EROFS: 'the disk is read-only',
  EACCES: 'no permission',
  EPERM: 'no permission',
  ENOENT: 'the folder is not there (removed, or a broken link)',
  ENOTDIR: 'part of the path is a file, not a folder',
  EEXIST: 'a file or a broken link of that name is in the way',
  EISDIR: 'a folder stands where a file should go',
  ENAMETOOLONG: 'the path is too long',
  ELOOP: 'the path loops through links',
  EIO: 'the disk reports an error',
  EMFILE: 'too many files are open',
  EFBIG: 'the file is larger than the disk allows',
};

/** What was tried with a folder when the file system refused. */
export type Attempt = 'write the result to' | 'read the result in';

/** Words an error of the file system; any other error comes back as it is. */
export function asFolderError(
  error: unknown,
  folder: string,
  attempt: Attempt = 'write the result to',
): unknown {
  if (!(error instanceof Error) || error instanceof FolderError) return error;
  const { code, syscall } = error as NodeJS.ErrnoException;
  if (code === undefined || syscall === undefined) return error;
  const why = WHY[code] ?? error.message;
  return new FolderError(code, folder, `cannot ${attempt} ${folder}: ${why}`, { cause: error });
}
