import type { UsedText } from '@setwright/language';
import type { Pause } from '../work/pause.ts';

/** A text of the workspace that is not open. */
export interface FileText {
  readonly uri: string;
  readonly text: string;
  /** Changes whenever the text does. */
  readonly stamp: string;
}

/** What the server needs of where it runs. */
export interface Platform {
  readonly pause: Pause;
  /** Milliseconds without an edit after which there is time for what takes long. */
  readonly quiet: number;
  /** A file of the disk that a document uses; not given where no files can be read. */
  readonly usedFile?: (uri: string) => UsedText | undefined;
  /** Receivers in the folders of the workspace; nothing where files cannot be read. */
  readonly receiversIn: (folders: readonly string[]) => Promise<readonly FileText[]>;
}
