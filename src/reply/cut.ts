/** What was typed, shortened so that the answer stays on one line. */
export const cut = (typed: string): string => (typed.length > 30 ? `${typed.slice(0, 29)}…` : typed);
