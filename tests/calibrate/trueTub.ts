/** What truly lives in a tub; nobody in the simulation but its own eyes sees it. */
export interface TrueTub {
  /** Lives through a day; saleable animals that died. */
  live(tempC: number): number;
  saleable(): number;
  juveniles(): number;
  berried(): number;
  /** Takes saleable animals out, as many as there are at most; how many came out. */
  take(number: number, sparesBerried: boolean): number;
  /** Puts saleable animals in. */
  put(number: number): void;
}
