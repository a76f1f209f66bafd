/** Procedures, by their keys in content/, that make an opening which is meant to stay: its rim heals and stays pink and moist. */
const LASTING: readonly string[] = ['new opening for urine'];

/** Whether a procedure makes an opening that is meant to stay, so that nothing closes there. */
export const makesLastingOpening = (procedure: string): boolean => LASTING.includes(procedure);
