/**
 * A recorded amount as a person says it. Times that are no whole number of their unit are told as on a clock, to the second:
 * `0.183333 min` is `11 s`, `62.5 min` is `1 h 2 min 30 s`. Anything else is the value and its unit.
 */
export function amountWords(value: string, unit: string): string {
  const seconds = secondsIn[unit];
  if (seconds === undefined || /^-?\d+$/.test(value)) return `${value} ${unit}`;
  const all = Math.round(Number(value) * seconds);
  const parts = [
    [Math.floor(all / 3600), 'h'],
    [Math.floor(all / 60) % 60, 'min'],
    [all % 60, 's'],
  ] as const;
  const told = parts.filter(([count]) => count > 0).map(([count, word]) => `${count} ${word}`);
  return told.length > 0 ? told.join(' ') : `0 ${unit}`;
}

const secondsIn: Readonly<Record<string, number>> = { min: 60, h: 3600 };
