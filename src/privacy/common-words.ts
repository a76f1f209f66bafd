/** Words of names, addresses and titles that are too common to tell anyone apart; never sought alone. */
export const TELL_NOBODY: ReadonlySet<string> = words(`
  the and for dr dra mr mrs ms miss mx prof sir dvm vmd mrcvs phd bvsc clinic animal animals pet pets veterinary vet vets
  hospital centre center practice surgery night emergency care lane street road row avenue drive court place square way
  close st ave rd ln apt suite floor house flat unit north south east west upper lower po box
  de la del los las el don doña sr sra srta van von der den ter bin ben ibn y
  clínica clinica veterinaria veterinario calle avenida avda plaza paseo camino carretera piso puerta noche urgencias`);

/**
 * Names that a text about an operation may well use as words. They are sought as names are written, with a capital
 * letter: "Rose slept" is found, "the pressure rose" is not. A name that such a text would hardly use as a word (Juniper,
 * Biscuit) is not listed, and is found in small letters too.
 */
export const ALSO_A_WORD: ReadonlySet<string> = words(`
  rose ash may june april august summer autumn winter grace hope faith joy will mark bill art grant frank rob pat sue
  jack drew dean max min ray rich guy gene miles wade clay cliff dale lane chase chance hunter scout mason carter cooper
  parker porter turner taylor baker butler cook fisher gardener miller shepherd smith weaver potter page price bishop
  church knight king queen prince princess lady baby buddy lucky happy sunny dusty shadow smoke storm sky star moon sun
  dawn river brook lake stone rock sandy cloud rain snow frost coal ginger pepper mint moss holly iris olive bean cookie
  honey sugar button buttons patch patches spot stripe tiger bear fox wolf bird robin lamb socks bell pearl amber crystal
  diamond silver gold brown white black green gray grey young long short small strong bright sharp swift sweet good best
  day week hill wood woods field fields bank banks park marsh bridge bush branch root hare bull link case pace rate rest
  bend point falls spring springs ridge creek valley harbor port reading orange mobile
  bolt pike ward law hall gates wells sol luna estrella cielo flor rosa blanca blanco negro negra canela miel nieve
  manchas reyes cruz paz alba mar leal sombra rubio delgado bravo campo campos calle iglesia montes prado cordero pinta`);

/** Words of file formats; read as the words that pages print themselves. */
export const OF_FORMATS: ReadonlySet<string> = words(`
  page pages link type font width height size title table body head style text image images lang desc rect root map names
  name count kids parent contents filter length index order info art annot span figure document form group path line
  circle data width viewport main section article header footer label button color black white gray`);

/** People whose names are words of the trade: instruments, solutions, tests, units (common practice). */
export const EPONYMS: ReadonlySet<string> = words(`
  ringer hartmann doppler celsius fahrenheit einthoven purkinje wenckebach bachmann mobitz holter horner cushing addison
  allis metzenbaum babcock adson gelpi balfour weitlaner senn rochester kelly kocher halsted doyen olsen hegar mathieu
  penrose foley robinson jackson pratt cooley trendelenburg elizabethan robert jones velpeau ehmer langer gram giemsa
  coombs bain magill murphy seldinger tuohy huber veress lembert cushing connell parker kerr lister scribner`);

/** Abbreviations that may look like somebody's initials. */
export const ABBREVIATIONS: ReadonlySet<string> = new Set(
  `ECG EKG EEG BP HR RR PR QT QRS IV IM SC SQ PO CO CVP MAP SAP DAP NIBP IBP ET OR ER ICU CT MR MRI US CRT MM PCV TP BUN ALT
  ALP AST GGT CK LDH CBC WBC RBC NSAID NSAIDS LRS NS CRI PRN BID TID QID SID OD OS OU AV SA VPC APC PVC PAC VT VF AF SVT AVB
  BBB CPR ROSC ASA MAC PEEP IPPV ETT FB BAR QAR UTI GI CNS PNS DIC SIRS AB DNA RNA PCR AP LV RV LA RA PDA PA MV TV AO EDTA
  II III VI`.split(/\s+/),
);

function words(list: string): Set<string> {
  return new Set(list.trim().split(/\s+/));
}
