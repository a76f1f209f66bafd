import { createHash } from 'node:crypto';
import type { Clinic } from '../record/clinic-schema.js';

/** SHA-256 of the key that stands in `demo-data/clinic.yaml` for everyone to read. */
const DIGEST = '5e23a49dbfcc32c35dcb80fd8cc0040b5e701a21965fc2c4ea7c98911cb5c719';
/** The invented clinic that it is for. */
const CLINIC = 'Harebell Lane Veterinary Clinic';

/** Whether a key is the one of the demonstration, which hides nothing. */
export const isDemonstrationKey = (key: string): boolean =>
  createHash('sha256').update(key.toLowerCase()).digest('hex') === DIGEST;

/** Whether a clinic is the invented one, whose patients nobody can look for. */
export const isDemonstration = ({ name }: Clinic): boolean => name === CLINIC;
