import { bad, type RecordsResult } from '../result.js'

const words: Readonly<Record<string, string>> = {
  ENOSPC: 'there is no space left on the disk (ENOSPC)',
  EDQUOT: 'the share of the disk that this user may fill is full (EDQUOT)',
  EROFS: 'the disk can only be read (EROFS)',
  EACCES: 'this user may not write there (EACCES)',
  EPERM: 'this user may not write there (EPERM)',
  EIO: 'the disk itself reported a fault (EIO)',
  ENOENT: 'the file or its folder is gone (ENOENT)',
  EMFILE: 'too many files are open (EMFILE)'
}

/** What the operating system said, as a part of a sentence. */
export function diskTrouble(error: unknown): string {
  const { code, message } = error as NodeJS.ErrnoException
  return words[code ?? ''] ?? message
}

/** Does `body`; where the disk refuses, that comes back as a fault. Anything else that is thrown is a mistake of ours. */
export function whereDiskHolds<Value>(file: string, body: () => RecordsResult<Value>): RecordsResult<Value> {
  try {
    return body()
  } catch (error) {
    if ((error as NodeJS.ErrnoException).syscall === undefined) throw error
    return bad({
      id: 'disk-refused',
      file: (error as NodeJS.ErrnoException).path ?? file,
      what: `The disk refused: ${diskTrouble(error)}.`,
      danger: 'What was to be written down is not on record, so nobody could rely on it.',
      mend: 'Stay where the work stands. Free space on the disk or bring it back to writing, then try again.'
    })
  }
}
