/** What the preview's server tells its pages, as it stands now. */
export type PreviewState = ListState | PageState;

/** All cases of the clinic. */
export interface ListState {
  readonly of: 'list';
  readonly clinic: string;
  /** What stops the collection as a whole. */
  readonly problems: readonly ToldProblem[];
  readonly cases: readonly ListedCase[];
  readonly reading: Reading | null;
}

export interface ListedCase {
  /** Name of its folder. */
  readonly name: string;
  /** Null where the case was not read yet, or cannot be. */
  readonly patient: string | null;
  readonly state: string;
  readonly problems: number;
  /** Warnings that the record does not answer. */
  readonly warnings: number;
  readonly pages: readonly ToldLink[];
  /** Why a build would keep public pages back. */
  readonly kept: readonly string[];
}

export interface ToldLink {
  readonly href: string;
  readonly label: string;
}

/** One page of a case. */
export interface PageState {
  readonly of: 'page';
  /** What the page is, for the head of the window. */
  readonly title: string;
  readonly pages: readonly (ToldLink & { readonly current: boolean })[];
  /** Another token, another page; null where the page cannot be made. */
  readonly token: string | null;
  /** What stops the page, or its PDF. */
  readonly problems: readonly ToldProblem[];
  readonly warnings: readonly ToldProblem[];
  /** Why a build would not publish this page; empty for the owner's sheet, which is never public. */
  readonly kept: readonly string[];
  /** Passages that their author has to decide on. */
  readonly undecided: readonly ToldProblem[];
}

/** How many cases were read of all. */
export interface Reading {
  readonly read: number;
  readonly of: number;
}

/** A problem as the terminal shows it. */
export interface ToldProblem {
  /** Its kind in the catalogue of messages: `T207`. */
  readonly number: string;
  /** `cases/pip/case.yaml:12:3` */
  readonly place: string;
  readonly field: string | null;
  /** The line of the file, and a rule below what is meant. */
  readonly frame: readonly string[];
  readonly found: string;
  readonly expected: string;
  readonly mend: string;
  /** A warning's answer in the record. */
  readonly accepted: string | null;
}

/** Where a page of the preview asks for its state; `of` is the path of a page in its tree, or nothing for the list. */
export const STATE_AT = '/preview/state';

/** Before the path of a page that is shown within the preview. */
export const SHOWN_AT = '/see/';
