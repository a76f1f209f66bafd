/**
 * Reads reference beat annotations in MIT format, to score our own beats against.
 * Source: PhysioNet, WFDB annotation file formats, annot(5), "MIT format"; codes from ecgcodes.h.
 */
export interface MitAnnotation {
  /** 0-based sample index at the record's sampling rate. */
  readonly sample: number;
  readonly code: number;
  readonly mnemonic: string;
  /** Text carried with the annotation, for example the rhythm `(N`. */
  readonly aux: string;
  readonly subtype: number;
  readonly channel: number;
  readonly num: number;
}

const mnemonics: Readonly<Record<number, string>> = Object.fromEntries([
  ...[...'NLRaVFJASEj/Q~'].map((mnemonic, index) => [index + 1, mnemonic] as const),
  [16, '|'],
  ...[...'sT*D"=pB^t+u?![]en@xf()r'].map((mnemonic, index) => [index + 18, mnemonic] as const),
]);

const SKIP = 59;
const NUM = 60;
const SUB = 61;
const CHN = 62;
const AUX = 63;

/** Bytes of an annotation file -> annotations in file order; throws RangeError where the bytes end too soon. */
export function readMitAnnotations(bytes: Uint8Array): MitAnnotation[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const annotations: MitAnnotation[] = [];
  let at = 0;
  const word = () => {
    const value = view.getUint16(at, true);
    at += 2;
    return value;
  };
  let sample = 0;
  let num = 0;
  let channel = 0;
  let code = 0;
  let interval = 0;
  const next = () => {
    const value = word();
    code = value >> 10;
    interval = value & 0x3ff;
  };
  next();
  while (code !== 0 || interval !== 0) {
    while (code === SKIP) {
      // PDP-11 long: the high 16 bits come first.
      const high = word();
      sample += (high << 16) | word();
      next();
    }
    sample += interval;
    const ownCode = code;
    let subtype = 0;
    let aux = '';
    for (next(); code >= NUM; next()) {
      if (code === NUM) num = (interval << 24) >> 24;
      else if (code === SUB) subtype = (interval << 24) >> 24;
      else if (code === CHN) channel = interval & 0xff;
      else if (code === AUX) {
        if (at + interval > bytes.length) throw new RangeError(`aux text ends after byte ${at}`);
        // Aux text often ends in a NUL, which C programs need and we do not.
        aux = new TextDecoder().decode(bytes.subarray(at, at + interval)).replace(/\0.*$/s, '');
        at += interval + (interval % 2);
      }
    }
    annotations.push({
      sample,
      code: ownCode,
      mnemonic: mnemonics[ownCode] ?? '',
      aux,
      subtype,
      channel,
      num,
    });
  }
  return annotations;
}

const beatMnemonics = new Set('NLRBAaJSVrFejnE/fQ?');

/** Whether the annotation marks a heart beat, as opposed to a rhythm, noise or wave boundary (PhysioNet annotation codes, "beat annotations"). */
export const isBeat = (mnemonic: string): boolean => beatMnemonics.has(mnemonic);
