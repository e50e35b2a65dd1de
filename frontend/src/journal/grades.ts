/** The order of grades. */
import type { Grade } from "../measure/book";

/** Worst first: 0 is dangerous. */
export const GRADE_RANK: Readonly<Record<Grade, number>> = { dangerous: 0, major: 1, minor: 2, advice: 3 };
