import type { Clinic } from '../../record/clinic-schema.js';
import type { Language } from '../../words/language.js';
import type { Content } from '../content.js';
import type { Library } from '../library/library.js';
import type { Shelf } from '../library/write-library.js';
import { explanationsOn } from './explanations.js';
import { ownPages } from './own-pages.js';
import type { Site } from './site.js';

/** The public site of a clinic, as far as it is the same for all of its pages. */
export function siteOf({
  clinic,
  content,
  library,
  epoch,
}: {
  readonly clinic: Clinic;
  readonly content: Content;
  readonly library: Library;
  /** SOURCE_DATE_EPOCH, where it is set. */
  readonly epoch: string | undefined;
}): Site {
  const shelf: Shelf = {
    library,
    languages: clinic.languages.map((tag) => content.languages.get(tag) as Language),
  };
  return {
    language: content.languages.get(clinic.languages[0] as string) as Language,
    languages: content.languages,
    at: clinic.site?.at ?? null,
    issued: clinic.site?.issued ?? dayOf(epoch),
    own: ownPages(),
    explanations: explanationsOn(shelf),
    shelf,
  };
}

/**
 * The day of a build that is to give the same bytes again, in UTC: SOURCE_DATE_EPOCH as the specification of
 * reproducible-builds.org has it, in whole seconds since 1970.
 */
function dayOf(epoch: string | undefined): string | null {
  if (epoch === undefined || !/^\d{1,11}$/.test(epoch)) return null;
  return new Date(Number(epoch) * 1000).toISOString().slice(0, 10);
}
