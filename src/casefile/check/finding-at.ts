import type { RecordPath, Severity } from '../../problem/problem.js';
import type { Finding } from '../finding.js';

type Maker = (id: string, path: RecordPath, message: string, mend: string, at?: Finding['at']) => Finding;

const maker =
  (severity: Severity): Maker =>
  (id, path, message, mend, at = 'value') => ({ id: `record/${id}`, severity, path, at, message, mend });

/** The file is refused. */
export const refuse: Maker = maker('error');

/** Something looks wrong and may be right. */
export const warn: Maker = maker('warning');

/** Worth knowing, nothing wrong. */
export const remark: Maker = maker('note');
